// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Tables of figures: as aligned text, as Markdown, as JSON.

#include <optional>
#include <string>
#include <vector>

namespace ullage::accuracy {

struct Cell {
    std::string text;
    std::optional<double> value;  ///< what the text shows, for JSON; shares as 0…1
};

Cell text(std::string words);
Cell count(double number);
Cell percent(double share, int digits);         ///< 0.066 → 6.6 %
Cell signed_percent(double share, int digits);  ///< 0.066 → +6.6 %
Cell number(double value, int digits);
Cell none();  ///< does not apply

struct Table {
    std::string title;
    std::string note;  ///< sentences below the title; may be empty
    std::vector<std::string> columns;
    std::vector<std::vector<Cell>> rows;
};

std::string as_text(const Table&);
std::string as_markdown(const Table&);

/// {"tables": [{"title", "note", "columns", "rows"}]}; cells are numbers, texts, or null.
std::string as_json(const std::vector<Table>&);

}  // namespace ullage::accuracy
