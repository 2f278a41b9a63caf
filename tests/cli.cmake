hw_test(cli
  SOURCES api/program.cpp api/cli_answers_test.cpp api/cli_malformed_test.cpp
          api/cli_reports_test.cpp api/cli_case_test.cpp
  LINK hw_base nlohmann_json::nlohmann_json)
hw_test(cases
  SOURCES api/program.cpp api/cli_cases_test.cpp
  LINK hw_base nlohmann_json::nlohmann_json)
if(TARGET huewright)
  add_dependencies(hw_test_cli huewright)
  add_dependencies(hw_test_cases huewright)
endif()

hw_test(cli_book
  SOURCES api/program.cpp api/cli_book_test.cpp api/cli_book_malformed_test.cpp
          support/books.cpp
  LINK hw_book nlohmann_json::nlohmann_json)
if(TARGET huewright)
  add_dependencies(hw_test_cli_book huewright)
endif()

# A year of a salon through the program, on both databases, against books kept by the test itself.
hw_test(cli_year
  SOURCES api/program.cpp api/own_books.cpp api/salon_year.cpp api/cli_year_test.cpp
          support/books.cpp
  LINK hw_book nlohmann_json::nlohmann_json)
set_tests_properties(cli_year PROPERTIES FIXTURES_REQUIRED postgres)
if(TARGET huewright)
  add_dependencies(hw_test_cli_year huewright)
endif()

hw_test(cli_language
  SOURCES api/program.cpp api/cli_language_test.cpp support/books.cpp
  LINK hw_book nlohmann_json::nlohmann_json)
if(TARGET huewright)
  add_dependencies(hw_test_cli_language huewright)
endif()

# The printed plan of each example head in each language.
hw_test(plan_report_language
  SOURCES unit/plan_report_language_test.cpp ../apps/cli/page.cpp ../apps/cli/look.cpp
          ../apps/cli/plan_report.cpp
  LINK hw_wire)
target_include_directories(hw_test_plan_report_language PRIVATE ${PROJECT_SOURCE_DIR}/apps/cli)
