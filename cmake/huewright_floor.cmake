# How a floor, a kernel file and a test program are declared.
include(GNUInstallDirs)

set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)

# No fused multiply-add: stored simulations must repeat bit for bit on any x86-64 machine.
add_compile_options(-ffp-contract=off -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor
                    -Wold-style-cast -Wcast-qual -Wunused)
if(HW_WERROR)
  add_compile_options(-Werror)
endif()
if(HW_SANITIZE)
  add_compile_options(-fsanitize=address,undefined -fno-sanitize-recover=undefined
                      -fno-omit-frame-pointer)
  add_link_options(-fsanitize=address,undefined)
endif()
if(HW_FUZZ)
  add_compile_options(-fsanitize=fuzzer-no-link)
endif()

# hw_floor(NAME SOURCES a.cpp … [TABLES t.csv …] [USES lower floors …] [LINK libraries …])
function(hw_floor name)
  cmake_parse_arguments(F "" "" "SOURCES;TABLES;USES;LINK" ${ARGN})
  add_library(hw_${name} STATIC ${F_SOURCES})
  add_library(huewright::${name} ALIAS hw_${name})
  set_target_properties(hw_${name} PROPERTIES EXPORT_NAME ${name} POSITION_INDEPENDENT_CODE ON)
  target_include_directories(hw_${name}
    PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include>
           $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>
    PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
  foreach(lower IN LISTS F_USES)
    if(NOT TARGET hw_${lower})
      message(FATAL_ERROR "floor ${name} uses ${lower}, which is not a floor below it")
    endif()
    target_link_libraries(hw_${name} PUBLIC hw_${lower})
  endforeach()
  if(F_LINK)
    target_link_libraries(hw_${name} PRIVATE ${F_LINK})
  endif()
  if(F_TABLES)
    hw_embed_tables(hw_${name} ${name} ${F_TABLES})
  endif()
  set_property(GLOBAL APPEND PROPERTY HW_FLOORS hw_${name})
endfunction()

# Kernel files: loops over members that the compiler must vectorise.
function(hw_kernel_sources)
  set_source_files_properties(${ARGN} PROPERTIES
    COMPILE_OPTIONS "-O3;-fno-math-errno;-fno-trapping-math")
endfunction()

# hw_test(NAME SOURCES … [LINK …]): one GoogleTest program, run as one test. Its rows of published
# values go to <build>/reference/NAME.tsv.
function(hw_test name)
  cmake_parse_arguments(T "" "" "SOURCES;LINK" ${ARGN})
  add_executable(hw_test_${name} ${T_SOURCES})
  target_link_libraries(hw_test_${name} PRIVATE
    ${T_LINK} hw_test_support GTest::gtest_main GTest::gmock)
  target_precompile_headers(hw_test_${name} REUSE_FROM hw_test_support)
  add_test(NAME ${name} COMMAND hw_test_${name})
  set(environment
    HW_REFERENCE_ROWS=${PROJECT_BINARY_DIR}/reference/${name}.tsv
    HW_TEST_DATA=${PROJECT_SOURCE_DIR}/tests/data
    HW_SOURCE_DIR=${PROJECT_SOURCE_DIR}
    HW_BINARY_DIR=${PROJECT_BINARY_DIR}
    HW_PROGRAM=${PROJECT_BINARY_DIR}/huewright)
  set_tests_properties(${name} PROPERTIES ENVIRONMENT "${environment}")
endfunction()
