// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/terms.h"

#include <cctype>

namespace ullage {

namespace {

bool is_letter(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || (c & 0x80) != 0; }

/// In lower case, names left out.
std::string searchable(std::string_view text) {
    static constexpr std::string_view open = "“", close = "”";
    std::string plain;
    bool named = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.substr(i, open.size()) == open) named = true;
        if (!named) plain += static_cast<char>(std::tolower(static_cast<unsigned char>(text[i])));
        if (text.substr(i, close.size()) == close) named = false;
    }
    return plain;
}

bool has_word(const std::string& text, const std::string& word) {
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const std::size_t end = at + word.size();
        if ((at == 0 || !is_letter(text[at - 1])) && (end == text.size() || !is_letter(text[end]))) return true;
    }
    return false;
}

bool uses(const std::string& text, const Term& term) {
    for (const auto& word : term.words)
        if (has_word(text, word)) return true;
    return false;
}

}  // namespace

const std::vector<Term>& terms() {
    static const std::vector<Term> all = {
        {{"box", "boxes"}, "A box is a machine with drives that data are stored on, here or in another place."},
        {{"dataset", "datasets"}, "A dataset is a body of data that is kept and copied as one: a share, a folder tree, "
                                  "a virtual disk."},
        {{"snapshot", "snapshots"}, "A snapshot is the state of the data at a moment, kept so that one can go back to "
                                    "it. It takes no space at first; what is later changed or deleted stays stored "
                                    "for as long as a snapshot needs it."},
        {{"ladder", "ladders"}, "A ladder says how many snapshots are kept, and how long: say one of each day for a "
                                "month, and one of each week for half a year."},
        {{"ceiling"}, "The ceiling is the share of a box that should not be passed, since a fuller box gets slow and "
                      "leaves no time to act."},
        {{"futures"}, "A future is one way in which the data may grow and change; many are drawn by chance from "
                      "what is known, and counted."},
        {{"horizon"}, "The horizon is how far ahead the forecast looks."},
        {{"send", "sends"}, "A send copies to another box what has changed since the one before, block by block."},
        {{"first copy"}, "The first copy carries all of the data; those after it only what has changed."},
        {{"increment"}, "An increment is what a send carries when both sides still have a snapshot in common: only "
                        "the changes since."},
        {{"window", "windows"}, "A window is the time from the start of a copy until it should be done: the hours in "
                                "which the line is open, or until the next copy is due."},
        {{"payload"}, "Payload is what arrives of the data itself, without what the line adds for transport."},
        {{"round trip"}, "The round trip is the time until an answer comes back over the line. The receive window "
                         "is how much may be on the way unanswered; the longer the round trip, the less that gives a "
                         "second."},
        {{"sealed"}, "Sealed means encrypted: unreadable without the key."},
        {{"turnover"}, "Turnover is how fast stored data are overwritten or deleted."},
        {{"live"}, "Live is what the data take as they are now, without old states."},
        {{"parity", "parity-1", "parity-2", "parity-3"},
         "Parity is extra data that lets a group of drives lose one, two or three of them (parity-1, -2, -3) without "
         "loss."},
        {{"mirror-2", "mirror-3", "mirror-4", "mirrors"}, "A mirror keeps the same data on two or more drives."},
        {{"pool"}, "A pool is the drives of a box, taken together as one store."},
        {{"rebuild", "rebuilt"}, "A rebuild fills a new drive with what a failed one held; until it is done the data "
                                 "are less safe."},
        {{"tib"}, "A TiB is 1.1 TB: 2^40 bytes, where a TB is 10^12."},
        {{"volume", "volumes"}, "A volume is a virtual disk that another machine uses."},
    };
    return all;
}

std::vector<std::string> Explainer::first_used_in(std::string_view text) {
    std::vector<std::string> meanings;
    std::vector<std::string> to_read = {searchable(text)};
    for (std::size_t i = 0; i < to_read.size(); ++i)
        for (std::size_t t = 0; t < terms().size(); ++t) {
            if (told_.count(t) == 1 || !uses(to_read[i], terms()[t])) continue;
            told_.insert(t);
            meanings.push_back(terms()[t].meaning);
            to_read.push_back(searchable(terms()[t].meaning));
        }
    return meanings;
}

}  // namespace ullage
