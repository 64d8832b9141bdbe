# One target per floor, with just the flags and libraries that it names.
#
#   plmi_floor(NAME SOURCES file.c... LIBS plimsoll_dep::z...)
#
# makes the object library plmi_NAME. What a floor may use stands in floors.txt alone. A floor without
# sources makes no target.

set(PLMI_FLOORS_FILE "${CMAKE_CURRENT_LIST_DIR}/floors.txt")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${PLMI_FLOORS_FILE}")

# PLMI_FLOORS: all floors, lowest first; the global property PLMI_USES_<floor>: what it may use.
set(PLMI_FLOORS "")
file(STRINGS "${PLMI_FLOORS_FILE}" plmi_lines REGEX "^floor ")
foreach(plmi_line IN LISTS plmi_lines)
  separate_arguments(plmi_words UNIX_COMMAND "${plmi_line}")
  list(GET plmi_words 1 plmi_name)
  list(REMOVE_AT plmi_words 0 1)
  list(APPEND PLMI_FLOORS ${plmi_name})
  set_property(GLOBAL PROPERTY PLMI_USES_${plmi_name} ${plmi_words})
endforeach()

# The flags of all our own C code, to the same effect with both compilers: clang's -Wdouble-promotion shouts at
# NAN and INFINITY, which are float constants, and its -Wconversion brings two more along; gcc's do not.
add_library(plmi_flags INTERFACE)
target_compile_definitions(plmi_flags INTERFACE _POSIX_C_SOURCE=200809L)
target_compile_options(plmi_flags INTERFACE
  -std=c11 -ffp-contract=off -fvisibility=$<IF:$<BOOL:${PLM_TESTED_SHARED}>,default,hidden>
  -Wall -Wextra -Wshadow -Wconversion -Wstrict-prototypes
  -Wmissing-prototypes -Wvla -Wformat=2
  $<$<C_COMPILER_ID:GNU>:-Wdouble-promotion>
  $<$<C_COMPILER_ID:Clang>:-Wno-sign-conversion>
  $<$<C_COMPILER_ID:Clang>:-Wno-string-conversion>
  $<$<BOOL:${PLM_WERROR}>:-Werror>)
if(PLM_SANITIZE)
  set(plmi_sanitizers -fsanitize=address,undefined -fno-sanitize-recover=all)
  target_compile_options(plmi_flags INTERFACE ${plmi_sanitizers} -fno-omit-frame-pointer)
  target_link_options(plmi_flags INTERFACE ${plmi_sanitizers})
endif()
if(PLM_FUZZ)
  target_compile_options(plmi_flags INTERFACE -fsanitize=fuzzer-no-link)
endif()

# What a shared library of our objects shows.
include(CheckLinkerFlag)
check_linker_flag(C "LINKER:--version-script=${PROJECT_SOURCE_DIR}/src/libplimsoll.map" PLMI_LINKER_TAKES_VERSION_SCRIPT)
function(plmi_show_public_alone target)
  if(PLMI_LINKER_TAKES_VERSION_SCRIPT)
    target_link_options(${target} PRIVATE "LINKER:--version-script=${PROJECT_SOURCE_DIR}/src/libplimsoll.map")
    set_property(TARGET ${target} APPEND PROPERTY LINK_DEPENDS "${PROJECT_SOURCE_DIR}/src/libplimsoll.map")
  endif()
endfunction()

function(plmi_floor name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "SOURCES;LIBS")
  if(arg_UNPARSED_ARGUMENTS OR NOT name IN_LIST PLMI_FLOORS)
    message(FATAL_ERROR "plmi_floor: not a floor of floors.txt, or unknown words: ${name} ${arg_UNPARSED_ARGUMENTS}")
  endif()
  if(NOT arg_SOURCES)
    return()
  endif()
  add_library(plmi_${name} OBJECT ${arg_SOURCES})
  set_target_properties(plmi_${name} PROPERTIES POSITION_INDEPENDENT_CODE ON)
  target_include_directories(plmi_${name} PRIVATE "${PROJECT_SOURCE_DIR}/include" "${PROJECT_SOURCE_DIR}/src")
  target_link_libraries(plmi_${name} PRIVATE plmi_flags ${arg_LIBS})
  set_property(GLOBAL APPEND PROPERTY PLMI_BUILT_FLOORS ${name})
  set_property(GLOBAL PROPERTY PLMI_LIBS_${name} ${arg_LIBS})
endfunction()
