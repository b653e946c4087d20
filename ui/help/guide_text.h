// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The words of the guide: what each page answers, the words used, how it is computed, cautions.

#include <QList>
#include <QString>
#include <QStringList>

namespace ullage::ui {

struct GuideSection {
    QString id;     ///< "fit", "arrive", "buy", "sure", "report": as the pages; others as in the text
    QString title;
    QStringList paragraphs;
};

QList<GuideSection> guideSections();
/// The section of the page with this place among the questions; the first section for others.
QString guideSectionOfPage(int page);
/// What a forecast can't do for anyone; the About box says the same.
QStringList cautions();

}  // namespace ullage::ui
