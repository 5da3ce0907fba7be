# undercroft_web(<target>) builds the page of web/ and compiles every file of it into <target> (assembler .incbin).
# At build time, not when configuring, and once for all presets: the page lies in build/web-dist and is built anew only
# when something it is made of has changed. src/web_assets/web_assets.hpp names what comes out.
option(UNDERCROFT_WEB "Build the page into the program (wants node 18 and npm 9, and the npm registry once)" ON)

function(undercroft_web target)
  set(made ${CMAKE_BINARY_DIR}/generated/web_assets)
  set(scripts ${CMAKE_SOURCE_DIR}/cmake/embed_web.cmake)
  set(inputs)
  set(node_options)
  if(UNDERCROFT_WEB)
    find_program(UNDERCROFT_NODE NAMES node nodejs)
    find_program(UNDERCROFT_NPM npm)
    if(NOT UNDERCROFT_NODE OR NOT UNDERCROFT_NPM)
      message(FATAL_ERROR "The page is built with node and npm (Debian: nodejs npm ca-certificates). "
                          "Install them, or configure with -DUNDERCROFT_WEB=OFF for a program without the page.")
    endif()
    list(APPEND scripts ${CMAKE_SOURCE_DIR}/cmake/build_web.cmake)
    file(GLOB_RECURSE inputs CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/src/* ${CMAKE_SOURCE_DIR}/web/public/*)
    list(REMOVE_ITEM inputs ${CMAKE_SOURCE_DIR}/web/src/api/schema.ts)  # made by the build itself
    file(GLOB described CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/api/openapi/*.json)
    list(FILTER inputs EXCLUDE REGEX "\\.test\\.ts$")
    list(APPEND inputs ${described})
    foreach(name .npmrc index.html package.json package-lock.json svelte.config.js tsconfig.json types.mjs vite.config.ts)
      list(APPEND inputs ${CMAKE_SOURCE_DIR}/web/${name})
    endforeach()
    file(WRITE ${made}/inputs.txt.new "${inputs}")
    configure_file(${made}/inputs.txt.new ${made}/inputs.txt COPYONLY)
    set(build_page COMMAND ${CMAKE_COMMAND} -DSOURCE=${CMAKE_SOURCE_DIR} -DINPUTS=${made}/inputs.txt
                           -DNODE=${UNDERCROFT_NODE} -DNPM=${UNDERCROFT_NPM} -DCOPY=${made}/files
                           -P ${CMAKE_SOURCE_DIR}/cmake/build_web.cmake)
  else()
    set(build_page COMMAND ${CMAKE_COMMAND} -E rm -rf ${made}/files)
  endif()
  add_custom_command(
    OUTPUT ${made}/page.S ${made}/page_table.cpp
    ${build_page}
    COMMAND ${CMAKE_COMMAND} -DFILES=${made}/files -DOUT=${made} -P ${CMAKE_SOURCE_DIR}/cmake/embed_web.cmake
    DEPENDS ${inputs} ${scripts}
    COMMENT "Building the page"
    VERBATIM)
  target_sources(${target} PRIVATE ${made}/page.S ${made}/page_table.cpp)
endfunction()
