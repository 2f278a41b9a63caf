# The built page becomes part of the program.
#   cmake -DROOT=ui/dist -DOUT=pages_built.cpp -P embed_pages.cmake
# Files below ROOT are named from it, "/assets/index-abc.js"; a file of a kind that is not listed here
# stops the build. Beside a file its smaller form may lie, FILE.gz. Without ROOT there are no pages, and the program says so.
set(types
  "html=text/html; charset=utf-8" "js=text/javascript; charset=utf-8" "css=text/css; charset=utf-8"
  "json=application/json" "webmanifest=application/manifest+json" "txt=text/plain; charset=utf-8"
  "svg=image/svg+xml" "png=image/png" "ico=image/x-icon" "woff2=font/woff2")
file(GLOB_RECURSE files RELATIVE ${ROOT} ${ROOT}/*)
list(FILTER files EXCLUDE REGEX "\\.(map|gz)$")
list(SORT files)
set(bodies "")
set(rows "")
set(count 0)
string(REPEAT "[0-9a-f]" 64 line)  # 32 bytes
function(put_bytes name file)
  file(READ ${file} hex HEX)
  string(REGEX REPLACE "(${line})" "\\1\n" hex "${hex}")
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" hex "${hex}")
  string(REPLACE "\n" "\"\n    \"" hex "${hex}")
  set(bodies "${bodies}constexpr char ${name}[] =\n    \"${hex}\";\n" PARENT_SCOPE)
endfunction()
foreach(file IN LISTS files)
  get_filename_component(extension ${file} LAST_EXT)
  string(SUBSTRING "${extension}" 1 -1 extension)
  set(type "")
  foreach(entry IN LISTS types)
    if(entry MATCHES "^${extension}=(.*)$")
      set(type ${CMAKE_MATCH_1})
    endif()
  endforeach()
  if(NOT type)
    message(FATAL_ERROR "${file}: no content type for .${extension}; add it to cmake/embed_pages.cmake")
  endif()
  file(SHA256 ${ROOT}/${file} hash)
  string(SUBSTRING ${hash} 0 32 hash)
  file(SIZE ${ROOT}/${file} size)
  put_bytes(kBytes${count} ${ROOT}/${file})
  set(gzip "{}")
  if(EXISTS ${ROOT}/${file}.gz)
    put_bytes(kGzip${count} ${ROOT}/${file}.gz)
    file(SIZE ${ROOT}/${file}.gz gzip)
    set(gzip "{kGzip${count}, ${gzip}}")
  endif()
  string(APPEND rows "    Page{\"/${file}\", \"${type}\", \"\\\"${hash}\\\"\", {kBytes${count}, ${size}}, ${gzip}},\n")
  math(EXPR count "${count} + 1")
endforeach()
file(WRITE ${OUT}.new
"// Made by cmake/embed_pages.cmake.
#include <array>

#include \"pages.h\"

namespace hw::server {
namespace {

${bodies}
constexpr std::array<Page, ${count}> kPages{
${rows}};

}  // namespace

std::span<const Page> pages() {
  return kPages;
}

}  // namespace hw::server
")
file(RENAME ${OUT}.new ${OUT})
