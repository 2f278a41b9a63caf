# hw_fuzz(NAME SOURCES driver.cpp DECODES src/…cpp … LINK …): one driver of a decoder.
# Under the fuzz preset it is a libFuzzer program, <build>/fuzz/fuzz_NAME. Elsewhere the same driver
# replays its corpus, tests/fuzz/corpus/NAME, as an ordinary test. DECODES names the files whose
# line coverage scripts/long holds to its limit.
function(hw_fuzz name)
  cmake_parse_arguments(Z "" "" "SOURCES;DECODES;LINK" ${ARGN})
  set(corpus ${PROJECT_SOURCE_DIR}/tests/fuzz/corpus/${name})
  add_executable(fuzz_${name} ${Z_SOURCES})
  target_link_libraries(fuzz_${name} PRIVATE ${Z_LINK})
  foreach(file IN LISTS Z_DECODES)
    if(NOT EXISTS ${PROJECT_SOURCE_DIR}/${file})
      message(FATAL_ERROR "hw_fuzz(${name}): no file ${file}")
    endif()
    set_property(GLOBAL APPEND PROPERTY HW_DECODERS ${file})
  endforeach()
  if(HW_FUZZ)
    target_link_options(fuzz_${name} PRIVATE -fsanitize=fuzzer)
  else()
    target_sources(fuzz_${name} PRIVATE ${PROJECT_SOURCE_DIR}/tests/fuzz/replay.cpp)
    add_test(NAME corpus.${name} COMMAND fuzz_${name} ${corpus})
  endif()
endfunction()
