# Initial cache: clang, warnings as errors.
# cmake -C tests/cmake/clang.cmake -S . -B build-clang
set(CMAKE_C_COMPILER clang CACHE STRING "")
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(PLM_WERROR ON CACHE BOOL "")
