// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The language of the texts on screen and in pictures.
///
/// One translator is installed for good and asks here for the language; so a report can be painted in
/// another language than the window's without any widget being told that the language changed. What
/// the catalogue (resources/translations/ullage_de.ts, built in) lacks is said in English; Qt's own
/// dialogs have Qt's own catalogue, where that is installed. For the thread of the window only.

#include "core/words/language.h"

#include <QLocale>

namespace ullage {

Language spoken_language();

/// From now on; widgets that exist already keep their texts. Dates and figures follow the system where its
/// language is the same, else that language's own. Needs a QCoreApplication.
void speak(Language language);

/// For as long as it lives, with that language's own dates and figures whatever the system has.
class Speaking {
public:
    explicit Speaking(Language language);
    ~Speaking();
    Speaking(const Speaking&) = delete;
    Speaking& operator=(const Speaking&) = delete;

private:
    Language before_;
    QLocale figures_before_;
};

}  // namespace ullage
