hw_test(process_rules
  SOURCES unit/process_bowl_test.cpp unit/process_rules_test.cpp unit/process_rules_cases.cpp
          unit/process_dated_cases.cpp
          reference/process_bowl_test.cpp
  LINK hw_process)
hw_test(process_kinetics
  SOURCES unit/process_kinetics_test.cpp reference/process_kinetics_test.cpp
  LINK hw_process)
hw_test(process_lift
  SOURCES unit/process_lift_test.cpp reference/process_lift_test.cpp
          property/process_lift_test.cpp
  LINK hw_process)

# The kernels once more, each for one instruction set under names of its own, to compare bits.
add_library(hw_test_kernels STATIC)
function(hw_test_kernel set flags)
  foreach(kernel process/lift_kernel hair/tress_kernel)
    set(copy ${CMAKE_CURRENT_BINARY_DIR}/kernels/${kernel}_${set}.cpp)
    file(CONFIGURE OUTPUT ${copy} CONTENT "#include \"${PROJECT_SOURCE_DIR}/src/${kernel}.cpp\"\n")
    set_source_files_properties(${copy} PROPERTIES
      COMPILE_OPTIONS "-O3;-fno-math-errno;-fno-trapping-math;${flags}"
      COMPILE_DEFINITIONS "HW_ONE_TARGET;HW_LIFT_STEPS=lift_steps_${set};HW_PIGMENT_MEANS=pigment_means_${set};HW_TRESS_KERNEL=tress_kernel_${set};HW_TRESS_Y_KERNEL=tress_y_kernel_${set}"
      OBJECT_DEPENDS ${PROJECT_SOURCE_DIR}/src/${kernel}.cpp)
    target_sources(hw_test_kernels PRIVATE ${copy})
  endforeach()
endfunction()
hw_test_kernel(baseline "")
target_include_directories(hw_test_kernels PRIVATE
  ${PROJECT_SOURCE_DIR}/include ${PROJECT_SOURCE_DIR}/src/process ${PROJECT_SOURCE_DIR}/src/hair)
hw_test(process_lift_bits
  SOURCES property/process_lift_bits_test.cpp
  LINK hw_process hw_test_kernels)
target_include_directories(hw_test_process_lift_bits PRIVATE
  ${PROJECT_SOURCE_DIR}/src/process ${PROJECT_SOURCE_DIR}/src/hair)
if(CMAKE_SYSTEM_PROCESSOR MATCHES "x86_64|AMD64")
  hw_test_kernel(avx2 -mavx2)
  hw_test_kernel(avx512f -mavx512f)
  target_compile_definitions(hw_test_process_lift_bits PRIVATE HW_TEST_X86_SETS)
endif()
hw_test(process_colour
  SOURCES unit/process_deposit_test.cpp unit/process_nnls_test.cpp unit/process_remover_test.cpp
          unit/process_swatch_test.cpp
          reference/process_fade_test.cpp reference/process_dye_test.cpp
          reference/process_uptake_test.cpp reference/process_deposit_test.cpp
          property/process_deposit_test.cpp
  LINK hw_process)
hw_test(process_dated
  SOURCES unit/process_moment_test.cpp unit/process_dated_test.cpp unit/process_care_test.cpp
  LINK hw_process)
hw_test(process_style
  SOURCES unit/process_dry_test.cpp unit/process_style_test.cpp
  LINK hw_process)
