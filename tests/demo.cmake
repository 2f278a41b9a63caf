hw_test(demo_salon
  SOURCES property/demo_salon_test.cpp support/books.cpp
  LINK hw_demo_salon)
