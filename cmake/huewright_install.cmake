# find_package(huewright) for other programs.
include(CMakePackageConfigHelpers)
get_property(floors GLOBAL PROPERTY HW_FLOORS)
install(TARGETS ${floors} EXPORT huewright-targets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(TARGETS huewright RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(DIRECTORY include/huewright DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(EXPORT huewright-targets NAMESPACE huewright:: DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/huewright)
configure_package_config_file(cmake/huewright-config.cmake.in
  ${PROJECT_BINARY_DIR}/huewright-config.cmake
  INSTALL_DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/huewright)
write_basic_package_version_file(${PROJECT_BINARY_DIR}/huewright-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/huewright-config.cmake
              ${PROJECT_BINARY_DIR}/huewright-config-version.cmake
        DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/huewright)
