hw_test(server_tell
  SOURCES server/tell_test.cpp
  LINK hw_server)
hw_test(server_handlers
  SOURCES server/handlers_test.cpp support/books.cpp
  LINK hw_server nlohmann_json::nlohmann_json)
hw_test(server_workbench
  SOURCES server/workbench_test.cpp support/books.cpp
  LINK hw_server nlohmann_json::nlohmann_json)
hw_test(server_replay
  SOURCES server/replay_test.cpp server/drills_test.cpp support/books.cpp
  LINK hw_server nlohmann_json::nlohmann_json)
