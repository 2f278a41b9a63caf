# The server: a client of plain sockets asks it.
hw_test(server_http
  SOURCES server/server_http_test.cpp server/client.cpp server/running.cpp
  LINK hw_server)
