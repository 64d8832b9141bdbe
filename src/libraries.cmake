# Finds the libraries that Plimsoll stands on, as targets plimsoll_dep::NAME.
# Used by the build and, installed beside the package file, by clients of the static library.

function(plimsoll_find_library name header)
  if(TARGET plimsoll_dep::${name})
    return()
  endif()
  find_library(PLIMSOLL_DEP_${name}_LIBRARY NAMES ${name})
  find_path(PLIMSOLL_DEP_${name}_INCLUDE NAMES ${header})
  mark_as_advanced(PLIMSOLL_DEP_${name}_LIBRARY PLIMSOLL_DEP_${name}_INCLUDE)
  if(NOT PLIMSOLL_DEP_${name}_LIBRARY OR NOT PLIMSOLL_DEP_${name}_INCLUDE)
    message(FATAL_ERROR "Plimsoll needs the library ${name} and its header ${header}")
  endif()
  add_library(plimsoll_dep::${name} UNKNOWN IMPORTED)
  set_target_properties(plimsoll_dep::${name} PROPERTIES
    IMPORTED_LOCATION "${PLIMSOLL_DEP_${name}_LIBRARY}"
    INTERFACE_INCLUDE_DIRECTORIES "${PLIMSOLL_DEP_${name}_INCLUDE}")
endfunction()

plimsoll_find_library(csv csv.h)
plimsoll_find_library(expat expat.h)
plimsoll_find_library(z zlib.h)
plimsoll_find_library(sqlite3 sqlite3.h)
plimsoll_find_library(inih ini.h)
plimsoll_find_library(nettle nettle/sha2.h)
plimsoll_find_library(utf8proc utf8proc.h)
plimsoll_find_library(m math.h)

if(NOT TARGET Threads::Threads)
  set(THREADS_PREFER_PTHREAD_FLAG ON)
  find_package(Threads REQUIRED)
endif()
