# Installs the project into an empty prefix, builds the outside program against it alone, runs it.
#   cmake -DSOURCE=… -DBINARY=… -DCOMPILER=… -DFLAGS=… -P run.cmake
set(place ${BINARY}/outside_package)
file(REMOVE_RECURSE ${place})
function(step)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(NOT code EQUAL 0)
    string(JOIN " " line ${ARGN})
    message(FATAL_ERROR "failed: ${line}\n${out}")
  endif()
endfunction()
step(${CMAKE_COMMAND} --install ${BINARY} --prefix ${place}/prefix)
step(${CMAKE_COMMAND} -G Ninja -S ${SOURCE}/tests/package -B ${place}/build
     -DCMAKE_CXX_COMPILER=${COMPILER} -DCMAKE_CXX_FLAGS=${FLAGS} -DCMAKE_BUILD_TYPE=Release
     -DCMAKE_PREFIX_PATH=${place}/prefix)
step(${CMAKE_COMMAND} --build ${place}/build)
step(${place}/build/salon_tool)
# Nothing installed may point back into the source or build folder.
file(GLOB_RECURSE texts ${place}/prefix/*.cmake ${place}/prefix/*.h)
foreach(file IN LISTS texts)
  file(READ ${file} text)
  foreach(folder ${SOURCE} ${BINARY})
    string(FIND "${text}" "${folder}/" at)
    if(NOT at EQUAL -1)
      message(FATAL_ERROR "${file} names ${folder}: the package would not survive a move")
    endif()
  endforeach()
endforeach()
