// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/terms.h"

namespace ullage {

namespace {

/// In lower case: ASCII, and of the Latin letters with marks those of two bytes from À to Þ (UTF-8).
std::string lower(std::string_view text) {
    std::string low;
    bool marked = false;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 'A' && byte <= 'Z') low += static_cast<char>(byte + 0x20);
        else if (marked && byte >= 0x80 && byte <= 0x9e && byte != 0x97) low += static_cast<char>(byte + 0x20);
        else low += c;
        marked = byte == 0xc3;
    }
    return low;
}

bool is_letter(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z') || byte >= 0x80;
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

/// "box, boxes" apart.
std::vector<std::string> forms(const std::string& list) {
    std::vector<std::string> words(1);
    for (const char c : list) {
        if (c == ',') words.emplace_back();
        else if (c != ' ' || !words.back().empty()) words.back() += c;
    }
    for (auto& word : words) word = lower(word);
    return words;
}

}  // namespace

std::vector<Term> terms(const Wording& w) {
    // TRANSLATORS: the first text of each pair lists all forms of the word that the catalogue uses.
    return {
        {forms(w.say_as("forms of a word", "box, boxes")),
         w.say("A box is a machine with drives, here or in another place.")},
        {forms(w.say_as("forms of a word", "dataset, datasets")),
         w.say("A dataset is a body of data that is kept and copied as one, such as a share or a virtual disk.")},
        {forms(w.say_as("forms of a word", "snapshot, snapshots")),
         w.say("A snapshot is the state of the data at a moment, kept so that one can go back to it; what is later "
               "changed or deleted stays stored for as long as a snapshot needs it.")},
        {forms(w.say_as("forms of a word", "ladder, ladders")),
         w.say("A ladder says how many snapshots are kept, and how long: say one of each day for a month, and one "
               "of each week for half a year.")},
        {forms(w.say_as("forms of a word", "ceiling")),
         w.say("The ceiling is the level to act at: a fuller box gets slow and leaves no time to buy.")},
        {forms(w.say_as("forms of a word", "futures")),
         w.say("A future is one way in which the data may grow and change, drawn by chance from what is known.")},
        {forms(w.say_as("forms of a word", "horizon")),
         w.say("The horizon is how far ahead the forecast looks.")},
        {forms(w.say_as("forms of a word", "send, sends")),
         w.say("A send copies to another box what has changed since the one before, block by block.")},
        {forms(w.say_as("forms of a word", "first copy")),
         w.say("The first copy carries all of the data; those after it only what has changed.")},
        {forms(w.say_as("forms of a word", "increment")),
         w.say("An increment is what a send carries when both sides still have a snapshot in common: only the "
               "changes since.")},
        {forms(w.say_as("forms of a word", "window, windows")),
         w.say("A window is the time that a copy has: until the line closes, or the next copy is due.")},
        {forms(w.say_as("forms of a word", "payload")),
         w.say("Payload is what arrives of the data itself, without what the line adds for transport.")},
        {forms(w.say_as("forms of a word", "round trip")),
         w.say("The round trip is the time until an answer comes back over the line. The receive window is how much "
               "may be on the way unanswered; the longer the round trip, the less that gives a second.")},
        {forms(w.say_as("forms of a word", "sealed")),
         w.say("Sealed means encrypted: unreadable without the key.")},
        {forms(w.say_as("forms of a word", "turnover")),
         w.say("Turnover is how fast stored data are overwritten or deleted.")},
        {forms(w.say_as("forms of a word", "live")),
         w.say("Live is what the data take as they are now, without old states.")},
        {forms(w.say_as("forms of a word", "parity, parity-1, parity-2, parity-3")),
         w.say("Parity is extra data that lets a group of drives lose one, two or three of them (parity-1, -2, -3) "
               "without loss.")},
        {forms(w.say_as("forms of a word", "mirror-2, mirror-3, mirror-4, mirrors")),
         w.say("A mirror keeps the same data on two or more drives.")},
        {forms(w.say_as("forms of a word", "pool")),
         w.say("A pool is the drives of a box, taken together as one store.")},
        {forms(w.say_as("forms of a word", "rebuild, rebuilt")),
         w.say("A rebuild fills a new drive with what a failed one held; until it is done the data are less safe.")},
        {forms(w.say_as("forms of a word", "tib")),
         w.say("A TiB is 1.1 TB: 2^40 bytes, where a TB is 10^12.")},
        {forms(w.say_as("forms of a word", "volume, volumes")),
         w.say("A volume is a virtual disk that another machine uses.")},
    };
}

/// In lower case, names left out: what is between the language's quotation marks.
std::string Explainer::searchable(std::string_view text) const {
    std::string plain;
    bool named = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!named && text.substr(i, open_.size()) == open_) named = true;
        if (!named) plain += text[i];
        if (named && text.substr(i, close_.size()) == close_) named = false;
    }
    return lower(plain);
}

Explainer::Explainer(const Wording& w) : terms_(terms(w)) {
    const std::string quoted = w.say("“{}”", "|");
    open_ = quoted.substr(0, quoted.find('|'));
    close_ = quoted.substr(quoted.find('|') + 1);
}

std::vector<std::string> Explainer::first_used_in(std::string_view text) {
    std::vector<std::string> meanings;
    std::vector<std::string> to_read = {searchable(text)};
    for (std::size_t i = 0; i < to_read.size(); ++i)
        for (std::size_t t = 0; t < terms_.size(); ++t) {
            if (told_.count(t) == 1 || !uses(to_read[i], terms_[t])) continue;
            told_.insert(t);
            meanings.push_back(terms_[t].meaning);
            to_read.push_back(searchable(terms_[t].meaning));
        }
    return meanings;
}

}  // namespace ullage
