# find_package(huewright) for other programs: every floor that hw_floor declared, and the program.
include(CMakePackageConfigHelpers)
get_property(floors GLOBAL PROPERTY HW_FLOORS)
list(TRANSFORM floors REPLACE "^hw_" "huewright::" OUTPUT_VARIABLE HW_FLOOR_NAMES)
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/huewright)

install(TARGETS ${floors} EXPORT huewright-targets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
if(TARGET huewright)
  install(TARGETS huewright RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
endif()
install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/huewright
  DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} FILES_MATCHING PATTERN "*.h")
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/huewright)
install(EXPORT huewright-targets NAMESPACE huewright:: DESTINATION ${package_dir})

configure_package_config_file(${PROJECT_SOURCE_DIR}/cmake/huewright-config.cmake.in
  ${PROJECT_BINARY_DIR}/huewright-config.cmake INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/huewright-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/huewright-config.cmake
              ${PROJECT_BINARY_DIR}/huewright-config-version.cmake DESTINATION ${package_dir})
