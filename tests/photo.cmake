# Photos: rendered frames with known truth, files of other people's cameras, hostile files.
add_library(hw_photo_scene STATIC support/photo_scene.cpp support/photo_file.cpp)
target_link_libraries(hw_photo_scene PUBLIC hw_test_support hw_photo hw_colour
                      PRIVATE PkgConfig::JPEG PkgConfig::LCMS PkgConfig::APRILTAG apriltag-utils fmt::fmt)
target_compile_definitions(hw_photo_scene PRIVATE HW_PHOTO_DATA="${CMAKE_CURRENT_SOURCE_DIR}/data")
hw_test(photo_frames SOURCES property/photo_frames_test.cpp LINK hw_photo_scene fmt::fmt)
hw_test(photo SOURCES unit/photo_read_test.cpp unit/photo_jpeg_test.cpp unit/photo_refusals_test.cpp LINK hw_photo_scene fmt::fmt)
hw_test(photo_reference SOURCES reference/photo_files_test.cpp reference/photo_chart_test.cpp
        LINK hw_photo_scene fmt::fmt)
target_include_directories(hw_test_photo_reference PRIVATE ${PROJECT_SOURCE_DIR}/src/photo)
hw_test(cli_read SOURCES api/program.cpp api/cli_read_test.cpp
        LINK hw_photo_scene nlohmann_json::nlohmann_json)
if(TARGET huewright)
  add_dependencies(hw_test_cli_read huewright)
endif()
# The printed sheet through another program's eyes (poppler), photographed.
hw_test(photo_print SOURCES reference/photo_print_test.cpp LINK hw_photo_scene hw_sheets fmt::fmt)
target_include_directories(hw_test_photo_print PRIVATE ${PROJECT_SOURCE_DIR}/src/photo)
# Photos for the tests of the page.
add_executable(hw_test_photo_frame support/photo_frame.cpp)
target_link_libraries(hw_test_photo_frame PRIVATE hw_photo_scene)
