// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Reads the tables of this folder: tab-separated, a header row, fields without tabs or quotes.

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace ullage::testing {

/// One line of a table, by column name.
struct ReferenceRow {
    std::map<std::string, std::string> fields;

    const std::string& text(const std::string& column) const {
        static const std::string none;
        const auto it = fields.find(column);
        if (it != fields.end()) return it->second;
        ADD_FAILURE() << "no column " << column;
        return none;
    }
    /// The numbers of a field, separated by spaces.
    std::vector<double> numbers(const std::string& column) const {
        std::istringstream in(text(column));
        std::vector<double> values;
        for (std::string word; in >> word;) values.push_back(std::stod(word));
        return values;
    }
    double number(const std::string& column) const {
        const auto values = numbers(column);
        EXPECT_EQ(values.size(), 1u) << column;
        return values.empty() ? 0 : values.front();
    }
};

/// All lines of tests/reference/`file`.
inline std::vector<ReferenceRow> reference_table(const std::string& file) {
    const std::string path = std::string(ULLAGE_SOURCE_DIR) + "/tests/reference/" + file;
    std::ifstream in(path);
    EXPECT_TRUE(in) << path;
    const auto fields_of = [](const std::string& line) {
        std::istringstream parts(line);
        std::vector<std::string> fields;
        for (std::string field; std::getline(parts, field, '\t');) fields.push_back(field);
        return fields;
    };
    std::string line;
    std::getline(in, line);
    const auto names = fields_of(line);
    std::vector<ReferenceRow> rows;
    while (std::getline(in, line)) {
        const auto fields = fields_of(line);
        EXPECT_EQ(fields.size(), names.size()) << path << ": " << line;
        ReferenceRow row;
        for (std::size_t i = 0; i < names.size() && i < fields.size(); ++i)
            row.fields[names[i]] = fields[i];
        rows.push_back(row);
    }
    EXPECT_FALSE(rows.empty()) << path;
    return rows;
}

}  // namespace ullage::testing
