// SPDX-License-Identifier: GPL-3.0-or-later
/// Writes the invented listings of the sample sites into a folder: make_listings sample-sites
#include "invented_store.h"

#include <fstream>
#include <iostream>

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "make_listings FOLDER\n";
        return 2;
    }
    for (const auto& [file, store] : ullage::testing::sample_listings()) {
        std::ofstream out(std::string(argv[1]) + "/" + file, std::ios::binary);
        out << ullage::testing::listing_of(store);
        if (!out.flush()) {
            std::cerr << file << " cannot be written\n";
            return 3;
        }
    }
    return 0;
}
