// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/event_text.h"

#include "core/site/site_json.h"

namespace ullage {

std::string event_text(const Event& e) {
    const std::string amount = to_text(e.amount.value);
    std::string text;
    switch (e.kind) {
        case Event::Kind::add:
            text = "adds " + amount;
            break;
        case Event::Kind::remove:
            text = "removes " + amount;
            break;
        case Event::Kind::rewrite:
            text = "rewrites " + amount;
            break;
        case Event::Kind::move:
            text = "moves " + amount;
            break;
    }
    return e.note.empty() ? text : text + ": " + e.note;
}

}  // namespace ullage
