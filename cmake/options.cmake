# Compiler options every target shares. Warnings are errors.
add_library(undercroft_options INTERFACE)
target_include_directories(undercroft_options INTERFACE ${CMAKE_SOURCE_DIR}/src)
target_compile_options(undercroft_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wnon-virtual-dtor -Wold-style-cast
  -Woverloaded-virtual -Wimplicit-fallthrough -Werror
  -Wno-restrict  # g++ 12 sees overlaps in std::string that are not there (GCC bug 105651)
  -Wno-maybe-uninitialized  # … and reads std::optional as used before it is asked (GCC bug 80635)
  -fno-math-errno
  -ffp-contract=off)  # the same sums on every machine: a preview equals what gets booked

set(UNDERCROFT_SANITIZE "" CACHE STRING "Sanitizers, e.g. address,undefined")
if(UNDERCROFT_SANITIZE)
  target_compile_options(undercroft_options INTERFACE -fsanitize=${UNDERCROFT_SANITIZE} -fno-sanitize-recover=all
                         -fno-omit-frame-pointer)
  target_link_options(undercroft_options INTERFACE -fsanitize=${UNDERCROFT_SANITIZE})
endif()
