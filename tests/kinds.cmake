# How each kind of C test is made. Every test gets the label of its kind.
#
#   plmi_unit_test(NAME FLOOR file.c... [LIBS ...])   Check; internals allowed        -> unit.FLOOR.NAME
#   plmi_ref_test(NAME FLOOR file.c... [LIBS ...])    Check and GSL; outside sources  -> ref.FLOOR.NAME
#   plmi_prop_test(NAME file.c... [LIBS ...])         Check and GSL; seeded           -> prop.NAME
#   plmi_fuzz_test(NAME file.c [MUTATOR file.c...] [LIBS ...])
#                                                     LLVMFuzzerTestOneInput; seeds in
#                                                     tests/fuzz/corpus/NAME          -> fuzz.NAME
#   plmi_bench(NAME file.c... [LIBS ...])             prints figures, asserts no time -> bench.NAME
#
# A test runs in the folder whose CMakeLists.txt names it. PLMI_TESTS_DIR and PLMI_SAMPLES_DIR are
# strings that C tests may use to find data; PLMI_SANITIZED is 1 under the sanitizers, where a long
# property may take fewer seeds. ctest's time limit is the only one, and is for what hangs.

find_package(PkgConfig REQUIRED)
pkg_check_modules(CHECK REQUIRED IMPORTED_TARGET check)
pkg_check_modules(GSL REQUIRED IMPORTED_TARGET gsl)
find_program(PLMI_PYTHON NAMES python3 PATHS /usr/bin NO_DEFAULT_PATH REQUIRED)

# The library's objects as an archive that hides nothing: tests may reach internals. With PLM_TESTED_SHARED as a shared
# library, so that a change of one object links once and not in every test.
get_property(PLMI_TESTED_FLOORS GLOBAL PROPERTY PLMI_BUILT_FLOORS)
set(plmi_inside_objects "")
set(plmi_inside_libs plimsoll_dep::m)
foreach(floor IN LISTS PLMI_TESTED_FLOORS)
  list(APPEND plmi_inside_objects $<TARGET_OBJECTS:plmi_${floor}>)
  get_property(floor_libs GLOBAL PROPERTY PLMI_LIBS_${floor})
  list(APPEND plmi_inside_libs ${floor_libs})
endforeach()
list(REMOVE_DUPLICATES plmi_inside_libs)
set(plmi_inside_kind STATIC)
if(PLM_TESTED_SHARED)
  set(plmi_inside_kind SHARED)
endif()
add_library(plmi_inside ${plmi_inside_kind} ${plmi_inside_objects})
set_target_properties(plmi_inside PROPERTIES LINKER_LANGUAGE C)
target_include_directories(plmi_inside PUBLIC "${PROJECT_SOURCE_DIR}/include" "${PROJECT_SOURCE_DIR}/src")
target_link_libraries(plmi_inside PUBLIC ${plmi_inside_libs})

# The program of a test, in a target named KIND_NAME, and its ctest KIND.NAME.
function(plmi_test_program kind name)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "" "SOURCES;LIBS;ARGS")
  string(REPLACE "." "_" target "${kind}_${name}")
  add_executable(${target} ${arg_SOURCES})
  target_include_directories(${target} PRIVATE "${PROJECT_SOURCE_DIR}/tests")
  target_compile_definitions(${target} PRIVATE
    PLMI_TESTS_DIR="${PROJECT_SOURCE_DIR}/tests"
    PLMI_SAMPLES_DIR="${PROJECT_SOURCE_DIR}/samples"
    PLMI_SANITIZED=$<BOOL:${PLM_SANITIZE}>)
  target_link_libraries(${target} PRIVATE plmi_flags plmi_inside ${arg_LIBS})
  add_test(NAME ${kind}.${name} COMMAND ${target} ${arg_ARGS} WORKING_DIRECTORY "${CMAKE_CURRENT_SOURCE_DIR}")
  set_tests_properties(${kind}.${name} PROPERTIES LABELS ${kind} TIMEOUT 1500
    ENVIRONMENT "CK_DEFAULT_TIMEOUT=0;CK_TIMEOUT_MULTIPLIER=100")
endfunction()

function(plmi_unit_test name floor)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "" "LIBS")
  plmi_test_program(unit ${floor}.${name} SOURCES ${arg_UNPARSED_ARGUMENTS} LIBS PkgConfig::CHECK ${arg_LIBS})
endfunction()

function(plmi_ref_test name floor)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "" "LIBS")
  plmi_test_program(ref ${floor}.${name} SOURCES ${arg_UNPARSED_ARGUMENTS}
    LIBS PkgConfig::CHECK PkgConfig::GSL ${arg_LIBS})
endfunction()

function(plmi_prop_test name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "LIBS")
  plmi_test_program(prop ${name} SOURCES ${arg_UNPARSED_ARGUMENTS}
    LIBS PkgConfig::CHECK PkgConfig::GSL ${arg_LIBS})
endfunction()

function(plmi_bench name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "LIBS")
  plmi_test_program(bench ${name} SOURCES ${arg_UNPARSED_ARGUMENTS} LIBS ${arg_LIBS})
endfunction()

# With PLM_FUZZ a libFuzzer program and no test; else a program that replays the corpus.
function(plmi_fuzz_test name source)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "" "MUTATOR;LIBS")
  if(PLM_FUZZ)
    add_executable(fuzz_${name} ${source} ${arg_MUTATOR})
    target_include_directories(fuzz_${name} PRIVATE "${PROJECT_SOURCE_DIR}/tests" "${PROJECT_SOURCE_DIR}/src")
    target_link_options(fuzz_${name} PRIVATE -fsanitize=fuzzer)
    target_link_libraries(fuzz_${name} PRIVATE plmi_flags plmi_inside ${arg_LIBS})
    return()
  endif()
  file(GLOB inputs CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/tests/fuzz/corpus/${name}/*")
  if(NOT inputs)
    message(FATAL_ERROR "plmi_fuzz_test: no seeds in tests/fuzz/corpus/${name}")
  endif()
  plmi_test_program(fuzz ${name} SOURCES ${source} "${PROJECT_SOURCE_DIR}/tests/fuzz/replay_corpus.c"
    LIBS ${arg_LIBS} ARGS ${inputs})
endfunction()
