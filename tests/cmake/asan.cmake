# Initial cache: address and undefined behaviour sanitizers, warnings as errors.
# cmake -C tests/cmake/asan.cmake -S . -B build-asan
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_C_FLAGS_RELWITHDEBINFO "-O1 -g" CACHE STRING "")
set(PLM_SANITIZE ON CACHE BOOL "")
set(PLM_WERROR ON CACHE BOOL "")
