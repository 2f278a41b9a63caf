# A PostgreSQL cluster of the tests' own runs while they need it.
add_test(NAME postgres_start
  COMMAND ${PROJECT_SOURCE_DIR}/tests/support/postgres_cluster start ${PROJECT_BINARY_DIR}/postgres)
add_test(NAME postgres_stop
  COMMAND ${PROJECT_SOURCE_DIR}/tests/support/postgres_cluster stop ${PROJECT_BINARY_DIR}/postgres)
set_tests_properties(postgres_start PROPERTIES FIXTURES_SETUP postgres)
set_tests_properties(postgres_stop PROPERTIES FIXTURES_CLEANUP postgres)

hw_test(book_store
  SOURCES unit/book_store_test.cpp support/books.cpp
  LINK hw_book)
set_tests_properties(book_store PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_find
  SOURCES unit/book_find_test.cpp support/books.cpp
  LINK hw_book)
set_tests_properties(book_find PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_folder
  SOURCES unit/book_folder_test.cpp support/books.cpp
  LINK hw_book)
hw_test(book_crash
  SOURCES property/book_crash_test.cpp support/books.cpp support/lossy_disk.cpp
  LINK hw_book PkgConfig::SQLITE)
set_tests_properties(book_crash PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_backup
  SOURCES unit/book_backup_test.cpp support/books.cpp
  LINK hw_book)
set_tests_properties(book_backup PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_transfer
  SOURCES unit/book_transfer_test.cpp support/books.cpp
  LINK hw_book)
set_tests_properties(book_transfer PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_desk
  SOURCES unit/book_desk_test.cpp support/books.cpp
  LINK hw_book)
set_tests_properties(book_desk PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_migration
  SOURCES unit/book_migration_test.cpp support/books.cpp support/lossy_disk.cpp
  LINK hw_book PkgConfig::SQLITE)
set_tests_properties(book_migration PROPERTIES FIXTURES_REQUIRED postgres)
hw_test(book_next_case
  SOURCES unit/book_next_case_test.cpp
  LINK hw_book)
hw_test(book_lessons
  SOURCES unit/book_lessons_test.cpp
  LINK hw_book)
hw_test(book_evidence
  SOURCES unit/book_evidence_test.cpp support/books.cpp
  LINK hw_book)
set_tests_properties(book_evidence PROPERTIES FIXTURES_REQUIRED postgres)
