hw_test(base SOURCES unit/base_test.cpp unit/language_test.cpp LINK hw_base)
