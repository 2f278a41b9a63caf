# The server: a client of plain sockets asks it.
find_package(OpenSSL 3 REQUIRED)
add_library(hw_test_server_support STATIC server/client.cpp server/running.cpp)
target_link_libraries(hw_test_server_support PUBLIC hw_server GTest::gtest)
target_include_directories(hw_test_server_support PUBLIC ${CMAKE_CURRENT_LIST_DIR})

hw_test(server_http
  SOURCES server/server_http_test.cpp
  LINK hw_test_server_support)
hw_test(server_devices
  SOURCES server/server_devices_test.cpp
  LINK hw_test_server_support)
hw_test(server_pages
  SOURCES server/server_pages_test.cpp
  LINK hw_test_server_support)
hw_test(server_routes
  SOURCES server/server_routes_test.cpp
  LINK hw_test_server_support)
hw_test(server_answers
  SOURCES server/server_answers_test.cpp
  LINK hw_test_server_support)
hw_test(server_events
  SOURCES server/server_events_test.cpp
  LINK hw_test_server_support)
hw_test(server_hostile
  SOURCES server/server_hostile_test.cpp
  LINK hw_test_server_support)
hw_test(server_program
  SOURCES server/server_program_test.cpp server/served.cpp api/program.cpp
  LINK hw_test_server_support)
hw_test(server_soak
  SOURCES server/server_soak_test.cpp server/served.cpp
  LINK hw_test_server_support nlohmann_json::nlohmann_json)
if(TARGET huewright)
  add_dependencies(hw_test_server_program huewright)
  add_dependencies(hw_test_server_soak huewright)
endif()
hw_test(server_lan
  SOURCES server/server_lan_test.cpp server/tls_client.cpp
  LINK hw_test_server_support OpenSSL::SSL)
hw_test(server_photo_routes
  SOURCES server/photo_routes_test.cpp
  LINK hw_test_server_support hw_photo_scene nlohmann_json::nlohmann_json)
