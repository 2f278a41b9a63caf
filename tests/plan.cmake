hw_test(plan
  SOURCES unit/plan_belief_test.cpp unit/plan_target_test.cpp unit/plan_lift_alone_test.cpp
          unit/plan_amounts_test.cpp unit/plan_head_test.cpp unit/plan_again_test.cpp
  LINK hw_plan)
hw_test(plan_coverage
  SOURCES property/plan_coverage_test.cpp property/plan_coverage_visits.cpp
  LINK hw_plan)
hw_test(plan_day
  SOURCES unit/plan_pours_test.cpp unit/plan_clock_test.cpp unit/plan_money_test.cpp unit/plan_day_sheet_test.cpp unit/plan_rebalance_test.cpp property/plan_day_sheet_test.cpp
  LINK hw_plan)
hw_test(plan_learn
  SOURCES unit/plan_learn_test.cpp unit/plan_learn_fact_test.cpp unit/plan_checks_test.cpp
  LINK hw_plan)
hw_test(plan_drill
  SOURCES unit/plan_drill_test.cpp property/plan_drill_test.cpp
  LINK hw_plan fmt::fmt)
hw_test(plan_learning
  SOURCES property/plan_learning_test.cpp property/plan_coverage_visits.cpp
  LINK hw_plan)
hw_test(plan_rules
  SOURCES unit/plan_colour_rules_test.cpp reference/plan_trade_test.cpp
  LINK hw_plan)

# The formula kernels once more, each for one instruction set under names of its own.
add_library(hw_test_formula_kernels STATIC)
function(hw_test_formula_kernel set flags)
  set(names LAYER COLOURS SLOPES DIFFERENCES METRIC BOUND FIRST JACOBIAN BEND GRAM)
  set(defines HW_ONE_TARGET)
  foreach(name IN LISTS names)
    string(TOLOWER ${name} lower)
    list(APPEND defines HW_FORMULA_${name}=formula_${lower}_${set})
  endforeach()
  foreach(kernel formula_kernel formula_model_kernel)
    set(copy ${CMAKE_CURRENT_BINARY_DIR}/kernels/plan/${kernel}_${set}.cpp)
    file(CONFIGURE OUTPUT ${copy}
      CONTENT "#include \"${PROJECT_SOURCE_DIR}/src/plan/${kernel}.cpp\"\n")
    set_source_files_properties(${copy} PROPERTIES
      COMPILE_OPTIONS "-O3;-fno-math-errno;-fno-trapping-math;${flags}"
      COMPILE_DEFINITIONS "${defines}"
      OBJECT_DEPENDS ${PROJECT_SOURCE_DIR}/src/plan/${kernel}.cpp)
    target_sources(hw_test_formula_kernels PRIVATE ${copy})
  endforeach()
endfunction()
target_include_directories(hw_test_formula_kernels PRIVATE
  ${PROJECT_SOURCE_DIR}/include ${PROJECT_SOURCE_DIR}/src/plan)
hw_test(plan_formula
  SOURCES unit/plan_formula_test.cpp property/plan_formula_test.cpp
          property/plan_formula_bits_test.cpp support/formula_shelf.cpp
          unit/plan_bowl_groups_test.cpp unit/plan_zone_lift_test.cpp
  LINK hw_plan hw_test_formula_kernels)
target_include_directories(hw_test_plan_formula PRIVATE ${PROJECT_SOURCE_DIR}/src/plan)
hw_test_formula_kernel(baseline "")
if(CMAKE_SYSTEM_PROCESSOR MATCHES "x86_64|AMD64")
  hw_test_formula_kernel(avx2 -mavx2)
  hw_test_formula_kernel(avx512f -mavx512f)
  target_compile_definitions(hw_test_plan_formula PRIVATE HW_TEST_X86_SETS)
endif()
hw_test(plan_heads
  SOURCES property/plan_heads_test.cpp property/plan_heads.cpp
  LINK hw_plan fmt::fmt)
