hw_test(process_rules
  SOURCES unit/process_bowl_test.cpp unit/process_rules_test.cpp unit/process_rules_cases.cpp
          reference/process_bowl_test.cpp
  LINK hw_process)
hw_test(process_kinetics
  SOURCES unit/process_kinetics_test.cpp reference/process_kinetics_test.cpp
  LINK hw_process)
hw_test(process_lift
  SOURCES unit/process_lift_test.cpp reference/process_lift_test.cpp
          property/process_lift_test.cpp
  LINK hw_process)
