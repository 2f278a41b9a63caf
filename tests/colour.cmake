hw_test(colour
  SOURCES unit/colour_spectrum_test.cpp unit/colour_light_test.cpp unit/colour_screen_test.cpp
          property/colour_property_test.cpp
  LINK hw_colour)
hw_test(colour_reference
  SOURCES reference/colour_light_test.cpp reference/colour_difference_test.cpp
          reference/colour_rgb_test.cpp reference/colour_chart_test.cpp
  LINK hw_colour)
