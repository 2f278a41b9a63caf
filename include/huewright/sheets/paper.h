#pragma once
// A document on paper: a tagged PDF that flows over as many pages as it takes.
#include <string>

#include "huewright/base/result.h"
#include "huewright/sheets/document.h"

namespace hw::sheets {

enum class Paper { a4, letter };
/// "a4" or "letter". Error: unknown_name.
[[nodiscard]] Result<Paper> paper_named(std::string_view word);

/// The document as the bytes of a PDF file, black on white, at least 10 points, tagged for screen
/// readers (headings, paragraphs, tables, lists, figures with their words). No block is split but
/// tables between rows and words between lines. The same document gives the same bytes for one
/// version of the libraries and the font. Errors: text that is not UTF-8 (malformed); a picture
/// that is no PNG; a text too long for a code; no memory.
[[nodiscard]] Result<std::string> pdf_of(const Document& document, Paper paper);

}  // namespace hw::sheets
