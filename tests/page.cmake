# The page in Debian's Chromium against the real program. Where the page was not built or there is no
# browser it is left out and says so; scripts/test installs both.
if(TARGET huewright AND CMAKE_BUILD_TYPE STREQUAL Release)
  add_executable(hw_test_lan_server server/lan_server.cpp)
  target_link_libraries(hw_test_lan_server PRIVATE hw_server)
  add_test(NAME page_e2e
    COMMAND ${PROJECT_SOURCE_DIR}/ui/e2e/run $<TARGET_FILE:huewright>
            --lan $<TARGET_FILE:hw_test_lan_server> --photos $<TARGET_FILE:hw_test_photo_frame>
            --data ${PROJECT_BINARY_DIR}/page_e2e)
  # Alone, for what it waits for is on the screen; the time is that of a machine much slower.
  set_tests_properties(page_e2e PROPERTIES RUN_SERIAL ON TIMEOUT 1200 SKIP_RETURN_CODE 77)
endif()
