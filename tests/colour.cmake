hw_test(colour SOURCES unit/colour_spectrum_test.cpp LINK hw_colour)
