# The page in a browser, driven against the real program. The page itself is checked before the build
# (scripts/build_page check), so this needs node and what npm put beside it.
find_program(NODE node HINTS ${PROJECT_SOURCE_DIR}/build/node/node_modules/.bin)
if(NODE AND EXISTS ${PROJECT_SOURCE_DIR}/ui/node_modules)
  add_test(NAME page_in_a_browser
    COMMAND ${NODE} ${PROJECT_SOURCE_DIR}/ui/e2e/run.mjs $<TARGET_FILE:huewright>
      --shots ${PROJECT_BINARY_DIR}/shots)
  set_tests_properties(page_in_a_browser PROPERTIES RUN_SERIAL ON TIMEOUT 900)
endif()
