# undercroft_tables(<target>) compiles every file of data/ into <target> as bytes (assembler .incbin):
# the binary needs no file beside it. src/tables/embedded.hpp names what comes out.
function(undercroft_tables target)
  file(GLOB files CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/data/*.csv ${CMAKE_SOURCE_DIR}/data/*.txt)
  set(assembly ".section .note.GNU-stack,\"\",@progbits\n.section .rodata\n")
  set(index "#include \"tables/embedded.hpp\"\n#include <cstring>\n\n")
  string(APPEND index "namespace {\nstruct Embedded { const char* name; const char* begin; const char* end; };\n}\n\nextern \"C\" {\n")
  set(rows "")
  foreach(file IN LISTS files)
    get_filename_component(name ${file} NAME)
    string(MAKE_C_IDENTIFIER ${name} symbol)
    string(APPEND assembly ".global table_${symbol}_begin\n.global table_${symbol}_end\n"
                           "table_${symbol}_begin:\n.incbin \"${file}\"\ntable_${symbol}_end:\n.byte 0\n")
    string(APPEND index "extern const char table_${symbol}_begin[];\nextern const char table_${symbol}_end[];\n")
    string(APPEND rows "    {\"${name}\", table_${symbol}_begin, table_${symbol}_end},\n")
  endforeach()
  string(APPEND index "}\n\nnamespace undercroft::tables {\n\nstd::string_view embedded(std::string_view name) {\n"
    "    static const Embedded k_files[] = {\n${rows}        {nullptr, nullptr, nullptr}};\n"
    "    for (const Embedded* file = k_files; file->name != nullptr; ++file)\n"
    "        if (name == file->name) return {file->begin, static_cast<std::size_t>(file->end - file->begin)};\n"
    "    return {};\n}\n\n}  // namespace undercroft::tables\n")
  set(generated ${CMAKE_BINARY_DIR}/generated)
  file(WRITE ${generated}/tables.S.in "${assembly}")
  file(WRITE ${generated}/tables_index.cpp.in "${index}")
  configure_file(${generated}/tables.S.in ${generated}/tables.S COPYONLY)
  configure_file(${generated}/tables_index.cpp.in ${generated}/tables_index.cpp COPYONLY)
  set_source_files_properties(${generated}/tables.S PROPERTIES OBJECT_DEPENDS "${files}")
  get_target_property(kind ${target} TYPE)
  if(kind STREQUAL "STATIC_LIBRARY")
    target_sources(${target} PRIVATE ${generated}/tables.S ${generated}/tables_index.cpp)
  endif()
endfunction()
enable_language(ASM)
