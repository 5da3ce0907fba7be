# One inner loop of chem is built once for every width of vector, and chosen at run time (has_lanes()): nothing else in
# the program needs a newer processor. An odd "four" on another architecture is an empty file.
if(CMAKE_SYSTEM_PROCESSOR MATCHES "^(x86_64|AMD64|amd64)$")
  foreach(lanes_level "two;x86-64-v2" "four;x86-64-v3" "eight;x86-64-v4")
    list(GET lanes_level 0 lanes)
    list(GET lanes_level 1 level)
    set_source_files_properties(src/chem/charge_balance_kernel_${lanes}.cpp PROPERTIES COMPILE_OPTIONS "-march=${level}")
  endforeach()
endif()
