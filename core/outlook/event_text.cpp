// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/event_text.h"

#include "core/site/site_json.h"

namespace ullage {

Message event_text(const Event& e) {
    const Exact amount{to_text(e.amount.value)};
    const Message text = [&] {
        switch (e.kind) {
            case Event::Kind::add: return message("adds {}", amount);
            case Event::Kind::remove: return message("removes {}", amount);
            case Event::Kind::rewrite: return message("rewrites {}", amount);
            case Event::Kind::move: return message("moves {}", amount);
        }
        return Message();
    }();
    return e.note.empty() ? text : message("{}: {}", text, e.note);
}

}  // namespace ullage
