hw_test(plan
  SOURCES unit/plan_belief_test.cpp unit/plan_target_test.cpp unit/plan_lift_test.cpp unit/plan_amounts_test.cpp unit/plan_formula_test.cpp unit/plan_colour_test.cpp unit/plan_head_test.cpp
  LINK hw_plan)
hw_test(plan_coverage
  SOURCES property/plan_coverage_test.cpp property/plan_coverage_visits.cpp
  LINK hw_plan)
hw_test(plan_day
  SOURCES unit/plan_pours_test.cpp unit/plan_clock_test.cpp unit/plan_money_test.cpp unit/plan_day_sheet_test.cpp unit/plan_rebalance_test.cpp
  LINK hw_plan)
hw_test(plan_learn
  SOURCES unit/plan_learn_test.cpp
  LINK hw_plan)
hw_test(plan_rules
  SOURCES unit/plan_colour_rules_test.cpp
  LINK hw_plan)
