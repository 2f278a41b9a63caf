# The strand chart: its numbers (floor plan) and its picture (floor sheets).
hw_test(strand_chart
  SOURCES unit/plan_strand_chart_test.cpp unit/plan_whole_day_chart_test.cpp unit/plan_course_chart_test.cpp unit/plan_fade_chart_test.cpp
          unit/plan_result_tiles_test.cpp
          unit/plan_level_lines_test.cpp
  LINK hw_plan)
hw_test(sheets
  SOURCES unit/sheets_strand_chart_test.cpp unit/sheets_fade_chart_test.cpp
          unit/sheets_result_tiles_test.cpp
  LINK hw_sheets PkgConfig::CAIRO)
hw_test(sheets_paper
  SOURCES unit/sheets_paper_test.cpp support/books.cpp
  LINK hw_sheets hw_book)
hw_test(sheets_language SOURCES unit/sheets_language_test.cpp
  LINK hw_sheets hw_book)
