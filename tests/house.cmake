# The house's own rules as tests: floors, file sizes, marks, sources, generated pages.
foreach(check check_floors check_files check_sources check_messages)
  add_test(NAME house.${check} COMMAND ${PROJECT_SOURCE_DIR}/tools/${check} ${PROJECT_SOURCE_DIR})
endforeach()
add_test(NAME house.sources_page COMMAND ${PROJECT_SOURCE_DIR}/tools/sources_page --check)
add_test(NAME house.planted_offenders
  COMMAND ${CMAKE_CURRENT_LIST_DIR}/house/planted_offenders.sh ${PROJECT_SOURCE_DIR})
set(package_flags ${CMAKE_CXX_FLAGS})
if(HW_SANITIZE)
  string(APPEND package_flags " -fsanitize=address,undefined")
endif()
add_test(NAME house.outside_package
  COMMAND ${CMAKE_COMMAND} -DSOURCE=${PROJECT_SOURCE_DIR} -DBINARY=${PROJECT_BINARY_DIR}
          -DCOMPILER=${CMAKE_CXX_COMPILER} "-DFLAGS=${package_flags}"
          -P ${CMAKE_CURRENT_LIST_DIR}/package/run.cmake)
if(TARGET huewright)
  add_test(NAME house.readme_examples COMMAND ${CMAKE_CURRENT_LIST_DIR}/house/readme_examples.sh
    ${PROJECT_SOURCE_DIR} $<TARGET_FILE:huewright>)
endif()
