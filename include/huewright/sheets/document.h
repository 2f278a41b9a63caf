#pragma once
// A sheet of paper as content: what is on it, not where. paper.h lays it out.
#include <string>
#include <variant>
#include <vector>

#include "huewright/colour/lab.h"

namespace hw::sheets {

struct Heading {
  std::string text;
};
struct Words {
  std::string text;
  bool strong = false;
};
/// Sentences with a mark before each.
struct Bullets {
  std::vector<std::string> texts;
};
/// A table. Every row has as many cells as there are columns.
struct Rows {
  std::vector<std::string> columns;  ///< headings, in words
  std::vector<std::vector<std::string>> rows;
  std::vector<double> widths = {};  ///< shares of the line; empty: equal
};
/// A colour of hair, with its name: paper does not show colours as they are.
struct Swatch {
  colour::HairLab lab;
  std::string words;
};
struct Swatches {
  std::vector<Swatch> swatches;
};
/// A picture as the bytes of a PNG file, with what it shows in words.
struct Picture {
  std::string png;
  std::string words;
};
/// A code for a telephone's camera, with what it holds in words.
struct Code {
  std::string text;   ///< what is read
  std::string words;  ///< beside it
};
/// A line to write on by hand.
struct Blank {
  std::string words;  ///< under it
};

using Block = std::variant<Heading, Words, Bullets, Rows, Swatches, Picture, Code, Blank>;

struct Document {
  std::string title;
  std::string under;  ///< the title: who, when
  std::string language = "en";
  std::string made_on;  ///< ISO date, for the file's own data: the same sheet is the same bytes
  std::string foot;     ///< on every page, before the number
  std::vector<Block> blocks;
};

}  // namespace hw::sheets
