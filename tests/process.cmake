hw_test(process_rules
  SOURCES unit/process_bowl_test.cpp unit/process_rules_test.cpp unit/process_rules_cases.cpp
          reference/process_bowl_test.cpp
  LINK hw_process)
