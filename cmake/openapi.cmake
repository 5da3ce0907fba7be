# undercroft_openapi(<target>) joins the files of src/api/openapi/ to one document and compiles it into <target> as bytes
# (assembler .incbin); src/api/openapi.hpp names what comes out. The document also lies in
# <build>/generated/openapi/openapi.json.
function(undercroft_openapi target)
  set(made ${CMAKE_BINARY_DIR}/generated/openapi)
  file(GLOB parts CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/api/openapi/*.json)
  set(script ${CMAKE_SOURCE_DIR}/cmake/join_openapi.cmake)
  file(MAKE_DIRECTORY ${made})
  file(WRITE ${made}/openapi.S.in ".section .note.GNU-stack,\"\",@progbits\n.section .rodata\n"
    ".global openapi_begin\n.global openapi_end\nopenapi_begin:\n.incbin \"${made}/openapi.json\"\nopenapi_end:\n.byte 0\n")
  configure_file(${made}/openapi.S.in ${made}/openapi.S COPYONLY)
  add_custom_command(OUTPUT ${made}/openapi.json
    COMMAND ${CMAKE_COMMAND} "-DPARTS=${CMAKE_SOURCE_DIR}/src/api/openapi" -DOUT=${made}/openapi.json -P ${script}
    DEPENDS ${parts} ${script} COMMENT "Joining the OpenAPI document" VERBATIM)
  set_source_files_properties(${made}/openapi.S PROPERTIES OBJECT_DEPENDS ${made}/openapi.json)
  target_sources(${target} PRIVATE ${made}/openapi.S)
endfunction()
