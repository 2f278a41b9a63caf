# One side of a pair that differs by one token. Called by ctest with
#   COMPILER, INCLUDE, FILE, TOKEN, WANT (compiles | fails), SAYS (what a refusal must print)
execute_process(
  COMMAND ${COMPILER} -std=c++20 -fsyntax-only -I${INCLUDE} -DHW_TOKEN=${TOKEN} ${FILE}
  RESULT_VARIABLE code
  OUTPUT_VARIABLE ignored
  ERROR_VARIABLE log)
if(WANT STREQUAL "compiles")
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "${FILE} with ${TOKEN} must compile:\n${log}")
  endif()
  return()
endif()
if(code EQUAL 0)
  message(FATAL_ERROR "${FILE} with ${TOKEN} must not compile, but it does")
endif()
# Refused for the reason meant, not for a missing header or a typing error.
if(NOT log MATCHES "${SAYS}")
  message(FATAL_ERROR "${FILE} with ${TOKEN} fails, but not with \"${SAYS}\":\n${log}")
endif()
