hw_test(colour
  SOURCES unit/colour_spectrum_test.cpp unit/colour_light_test.cpp unit/colour_screen_test.cpp
          property/colour_property_test.cpp
  LINK hw_colour)
hw_test(colour_reference
  SOURCES reference/colour_light_test.cpp reference/colour_difference_test.cpp
          reference/colour_rgb_test.cpp reference/colour_chart_test.cpp
  LINK hw_colour)

# What must not compile, each with the twin one token away that does. A file names its two tokens
# and what the refusal says in its first three lines.
file(GLOB cases CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/compile_fail/*.cpp)
foreach(case IN LISTS cases)
  get_filename_component(name ${case} NAME_WE)
  file(STRINGS ${case} head LIMIT_COUNT 3)
  list(TRANSFORM head REPLACE "^// [a-z]+: " "")
  list(GET head 0 right)
  list(GET head 1 wrong)
  list(GET head 2 says)
  foreach(side IN ITEMS "${right} compiles" "${wrong} fails")
    separate_arguments(side)
    list(GET side 0 token)
    list(GET side 1 want)
    add_test(NAME compile_fail.${name}.${token}_${want}
      COMMAND ${CMAKE_COMMAND} -DCOMPILER=${CMAKE_CXX_COMPILER}
              -DINCLUDE=${PROJECT_SOURCE_DIR}/include -DFILE=${case} -DTOKEN=${token}
              -DWANT=${want} "-DSAYS=${says}" -P ${CMAKE_CURRENT_SOURCE_DIR}/compile_fail/check.cmake)
  endforeach()
endforeach()
