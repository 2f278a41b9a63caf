hw_test(wire
  SOURCES unit/wire_json_test.cpp unit/wire_schema_test.cpp unit/wire_lift_test.cpp
          unit/wire_bowl_colour_test.cpp unit/wire_plan_test.cpp unit/wire_fade_test.cpp unit/wire_deposit_test.cpp
          unit/wire_case_test.cpp unit/wire_checks_test.cpp unit/wire_tables_test.cpp
          unit/wire_long_texts_test.cpp
  LINK hw_wire fmt::fmt nlohmann_json::nlohmann_json)
hw_test(plan_textbook
  SOURCES property/plan_textbook_test.cpp property/plan_textbook_why.cpp support/textbook.cpp
  LINK hw_wire fmt::fmt)
find_package(PkgConfig REQUIRED)
pkg_check_modules(ICAL REQUIRED IMPORTED_TARGET libical)
hw_test(wire_calendar
  SOURCES unit/wire_calendar_test.cpp
  LINK hw_wire PkgConfig::ICAL nlohmann_json::nlohmann_json)
