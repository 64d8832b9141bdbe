# Initial cache: the fuzzers as libFuzzer programs, with the sanitizers.
# cmake -C tests/cmake/fuzz.cmake -S . -B build-fuzz
set(CMAKE_C_COMPILER clang CACHE STRING "")
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(PLM_SANITIZE ON CACHE BOOL "")
set(PLM_FUZZ ON CACHE BOOL "")
