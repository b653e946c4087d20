// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/table.h"

#include <fmt/format.h>
#include <algorithm>
#include <nlohmann/json.hpp>

namespace ullage::accuracy {

namespace {

/// Columns a text takes: code points of UTF-8, none of those used here is wide.
std::size_t width_of(const std::string& s) {
    return static_cast<std::size_t>(
        std::count_if(s.begin(), s.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

std::string padded(const std::string& s, std::size_t width, bool right) {
    const std::string gap(width - std::min(width, width_of(s)), ' ');
    return right ? gap + s : s + gap;
}

bool is_words(const Table& table, std::size_t column) {
    return std::all_of(table.rows.begin(), table.rows.end(), [&](const std::vector<Cell>& row) {
        return column < row.size() && !row[column].value;
    });
}

}  // namespace

Cell text(std::string words) { return {std::move(words), {}}; }
Cell count(double number) { return {fmt::format("{:.0f}", number), number}; }
Cell percent(double share, int digits) {
    return {fmt::format("{:.{}f} %", 100 * share, digits), share};
}
Cell signed_percent(double share, int digits) {
    return {fmt::format("{:+.{}f} %", 100 * share, digits), share};
}
Cell number(double value, int digits) { return {fmt::format("{:.{}f}", value, digits), value}; }
Cell none() { return {"–", {}}; }

std::string as_text(const Table& table) {
    std::vector<std::size_t> widths;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        widths.push_back(width_of(table.columns[c]));
        for (const auto& row : table.rows)
            if (c < row.size()) widths[c] = std::max(widths[c], width_of(row[c].text));
    }
    std::string out = table.title + "\n";
    if (!table.note.empty()) out += table.note + "\n";
    const auto line = [&](const auto& text_at) {
        std::string s;
        for (std::size_t c = 0; c < widths.size(); ++c)
            s += (c == 0 ? "" : "  ") + padded(text_at(c), widths[c], !is_words(table, c));
        while (!s.empty() && s.back() == ' ') s.pop_back();
        out += s + "\n";
    };
    line([&](std::size_t c) { return table.columns[c]; });
    for (const auto& row : table.rows)
        line([&](std::size_t c) { return c < row.size() ? row[c].text : std::string(); });
    return out;
}

std::string as_markdown(const Table& table) {
    std::string out = "**" + table.title + "**\n";
    if (!table.note.empty()) out += table.note + "\n";
    out += "\n|";
    for (const auto& c : table.columns) out += " " + c + " |";
    out += "\n|";
    for (std::size_t c = 0; c < table.columns.size(); ++c)
        out += is_words(table, c) ? "---|" : "---:|";
    for (const auto& row : table.rows) {
        out += "\n|";
        for (const auto& cell : row) out += " " + cell.text + " |";
    }
    return out + "\n";
}

std::string as_json(const std::vector<Table>& tables) {
    auto all = nlohmann::json::array();
    for (const auto& table : tables) {
        auto rows = nlohmann::json::array();
        for (const auto& row : table.rows) {
            auto cells = nlohmann::json::array();
            for (const auto& cell : row) {
                if (cell.value)
                    cells.push_back(*cell.value);
                else if (cell.text == none().text)
                    cells.push_back(nullptr);
                else
                    cells.push_back(cell.text);
            }
            rows.push_back(std::move(cells));
        }
        all.push_back({{"title", table.title},
                       {"note", table.note},
                       {"columns", table.columns},
                       {"rows", std::move(rows)}});
    }
    return nlohmann::json{{"tables", std::move(all)}}.dump(1) + "\n";
}

}  // namespace ullage::accuracy
