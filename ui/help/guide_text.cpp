// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/help/guide_text.h"

#include "core/report/terms.h"
#include "ui/language/spoken_language.h"

#include <QCoreApplication>

namespace ullage::ui {

namespace {

struct Guide {
    Q_DECLARE_TR_FUNCTIONS(Guide)
};

GuideSection first() {
    return {QStringLiteral("first"),
            Guide::tr("A first forecast"),
            {Guide::tr("Start with a sample, or with the five figures on the first page: how much "
                       "is stored, how it grows, what a day writes, the size of the second box, "
                       "the rate of the line. The forecast comes at once."),
             Guide::tr("On the left is everything the site has; choose an item, and its fields are "
                       "on the right. Each change is answered in the background. Undo takes back "
                       "any of them."),
             Guide::tr("A quantity is typed with its unit: 12 TB, 1.5 TiB, 100 Mbit/s, 18 ms. What "
                       "is wrong is said beneath the field, and the forecast waits for it."),
             Guide::tr("A snapshot listing of the real data makes the forecast much better than "
                       "any typed figure: drop one onto the window.")}};
}

GuideSection fit() {
    return {QStringLiteral("fit"),
            Guide::tr("Will it fit?"),
            {Guide::tr("When does each box reach its ceiling, and when is it full? The gauge shows "
                       "twenty marks: each is one of twenty equally likely futures, where it gets "
                       "there. Those that do not within the horizon are counted at its end."),
             Guide::tr("“1 in 10: before March” means that one future of ten is there before "
                       "March. Order by that date, not by the middle one, if being late hurts."),
             Guide::tr("The chart shows the fill of the chosen box. The dark band holds the middle "
                       "half of all futures at each date, the pale one eight of ten. Dates when "
                       "the ceiling is reached are counted for each future by itself and not "
                       "read off the bands.")}};
}

GuideSection arrive() {
    return {QStringLiteral("arrive"),
            Guide::tr("Will it arrive?"),
            {Guide::tr("Does the line carry each copy in the hours it is open? The week shows the "
                       "open hours, the usual length of each run, and the length that 19 in 20 runs "
                       "stay below; late runs are hatched."),
             Guide::tr("The steps beside it show what is left of the line's rate after all that "
                       "takes a part of it, and name the one that binds."),
             Guide::tr("Draw an outage onto the chart to see how old the newest copy gets, and "
                       "whether everything must be sent again.")}};
}

GuideSection buy() {
    return {QStringLiteral("buy"),
            Guide::tr("What to buy?"),
            {Guide::tr("Each offer is computed on the same futures as the forecast, as if ordered "
                       "today: how often the box then lasts, when it reaches its ceiling, what it "
                       "costs until the horizon. The cheapest that lasts often enough is marked."),
             Guide::tr("Prices are those that were typed. None is looked up.")}};
}

GuideSection sure() {
    return {QStringLiteral("sure"),
            Guide::tr("How sure?"),
            {Guide::tr("What the forecast rests on: the measured points, the forecasts that would "
                       "have been made in the past beside what then came, what matters most, and "
                       "what was assumed because nothing was given."),
             Guide::tr("The longest bar among what matters most is the figure that is worth "
                       "finding out.")}};
}

GuideSection report() {
    return {QStringLiteral("report"),
            Guide::tr("Report"),
            {Guide::tr("What the client gets, as it will print. It can be saved as PDF and as "
                       "HTML; choose there what goes into it.")}};
}

GuideSection words() {
    GuideSection section{QStringLiteral("words"), Guide::tr("Words used"), {}};
    for (const Term& term : terms(Wording(spoken_language())))
        section.paragraphs << QString::fromStdString(term.meaning);
    return section;
}

GuideSection computed() {
    return {QStringLiteral("computed"),
            Guide::tr("How it is computed"),
            {Guide::tr("Snapshots hold what was changed or deleted after them. Blocks that are "
                       "rewritten often are held once, not once a day, so “written in a day × days "
                       "kept” is too much, often by half. For each dataset a curve says how much "
                       "of the data dies within a day, a week, a month; it is fitted to the "
                       "listing, or to the figures that were typed."),
             Guide::tr("Many futures are drawn by chance, 2,000 if nothing else was asked for: of "
                       "growth, of what is written, and of the events in the site. For each, the "
                       "fill of each box is followed through time, with the snapshots that its "
                       "ladder keeps then."),
             Guide::tr("Sends follow the calendar of the site's time zone, night by night, over "
                       "the rate that the line really gives in its open hours."),
             Guide::tr("The same site gives the same answer, each time. Nothing is sent anywhere: "
                       "the program opens no network connection.")}};
}

GuideSection careful() {
    return {QStringLiteral("cautions"), Guide::tr("Before you rely on it"), cautions()};
}

GuideSection keys() {
    return {QStringLiteral("keys"),
            Guide::tr("Keys"),
            {Guide::tr("F1: this guide, at the page in front. Shift+F1: what the field that has "
                       "the keyboard is for; if there is none, a click then chooses. F6: the next "
                       "pane. Ctrl+1 to Ctrl+5: the questions. Esc: cancels a forecast."),
             Guide::tr("In the outline: F2 renames, Ctrl+D duplicates, Alt+Up and Alt+Down move, "
                       "Delete removes; what depends on an item is named before it goes."),
             Guide::tr("Units: the View menu chooses between TB (10¹² bytes) and TiB (2⁴⁰ bytes) "
                       "for what is computed. What was typed stays as it was typed.")}};
}

}  // namespace

QStringList cautions() {
    return {Guide::tr("A forecast is not a backup."),
            Guide::tr("A copy counts when a restore from it has been tried."),
            Guide::tr("Keep one copy offline or unchangeable."),
            Guide::tr("Electrical and rack work is for qualified people, by the local codes.")};
}

QList<GuideSection> guideSections() {
    return {first(), fit(),      arrive(),  buy(), sure(), report(),
            words(), computed(), careful(), keys()};
}

QString guideSectionOfPage(int page) {
    const QStringList ids{QStringLiteral("fit"), QStringLiteral("arrive"), QStringLiteral("buy"),
                          QStringLiteral("sure"), QStringLiteral("report")};
    return ids.value(page, QStringLiteral("first"));
}

}  // namespace ullage::ui
