# Builds the page into SOURCE/build/web-dist unless it is there already, made of the same INPUTS (a file with their list),
# and copies it to COPY. Several builds may run this at once: they take turns.
cmake_minimum_required(VERSION 3.25)

set(dist ${SOURCE}/build/web-dist)
file(MAKE_DIRECTORY ${SOURCE}/build)
file(LOCK ${SOURCE}/build/web-dist.lock GUARD PROCESS TIMEOUT 1200)

file(READ ${INPUTS} inputs)
set(sums "")
foreach(input IN LISTS inputs)
  file(SHA256 ${input} sum)
  file(RELATIVE_PATH name ${SOURCE} ${input})
  string(APPEND sums "${sum} ${name}\n")
endforeach()
string(SHA256 state "${sums}")

function(run words)
  execute_process(COMMAND ${ARGN} WORKING_DIRECTORY ${SOURCE}/web RESULT_VARIABLE code
                  OUTPUT_VARIABLE said ERROR_VARIABLE said ENCODING UTF-8)
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "${said}\n${words} failed (${code}). Without the page the program builds with -DUNDERCROFT_WEB=OFF.")
  endif()
endfunction()

# The packages, as the lock file says, when they are not there or another lock file brought them.
file(SHA256 ${SOURCE}/web/package-lock.json lock)
set(installed "")
if(EXISTS ${SOURCE}/web/node_modules/.of-lock)
  file(READ ${SOURCE}/web/node_modules/.of-lock installed)
endif()

set(built "")
if(EXISTS ${SOURCE}/build/web-dist.state)
  file(READ ${SOURCE}/build/web-dist.state built)
endif()
if(NOT built STREQUAL state OR NOT EXISTS ${dist}/index.html)
  if(NOT installed STREQUAL lock)
    run("npm ci (it needs the npm registry once)" ${NPM} ci --ignore-scripts --no-fund --no-audit)
    file(WRITE ${SOURCE}/web/node_modules/.of-lock ${lock})
  endif()
  file(REMOVE ${SOURCE}/build/web-dist.state)
  run("vite build" ${CMAKE_COMMAND} -E env UNDERCROFT_WEB_DIST=${dist} ${NPM} run --silent build)
  file(WRITE ${SOURCE}/build/web-dist.state ${state})
endif()

file(REMOVE_RECURSE ${COPY})
file(COPY ${dist}/ DESTINATION ${COPY})
