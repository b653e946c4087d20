// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/report_pictures.h"

#include "ui/charts/fill_chart.h"
#include "ui/gauge/days_until_full_gauge.h"
#include "ui/language/spoken_language.h"
#include "ui/theme/theme.h"
#include "ui/week/week_strips.h"

#include <QBuffer>
#include <QPainter>
#include <QSvgGenerator>

#include <cmath>

namespace ullage {
namespace {

constexpr double fill_shape = 0.62;  // height of a fan, of its width

const BoxOutlook* box_of(const Answer& a, const ReportPicture& p) {
    return p.of != ReportPicture::Of::week && p.index < a.outlook.boxes.size()
               ? &a.outlook.boxes[p.index]
               : nullptr;
}

const SendOutlook* send_of(const Answer& a, const ReportPicture& p) {
    return p.of == ReportPicture::Of::week && p.index < a.outlook.sends.size()
               ? &a.outlook.sends[p.index]
               : nullptr;
}

/// For a picture's title, which breaks between words only. The whole name stands above the picture.
std::string short_name(const std::string& name) {
    constexpr qsizetype longest_word = 36;
    const QString text = QString::fromStdString(name);
    for (const QString& word : text.split(u' '))
        if (word.size() > longest_word) return (text.left(longest_word) + u'…').toStdString();
    return name;
}

template <class Widget>
void dress(Widget& widget, const QFont& font) {
    widget.setFont(font);
    widget.setPalette(light_palette());
    widget.setState(ShownState::ready);
}

void set(DaysUntilFullGauge& gauge, const Answer& a, BoxOutlook box) {
    box.name = short_name(box.name);
    gauge.setBox(&box, a.outlook.horizon_days, a.outlook.as_of,
                 status_of(box, a.outlook.horizon_days));
}

void set(WeekStrips& week, const Answer& a, const SendOutlook& send) {
    week.setSend(&send, TimeZone::find(a.site.time_zone).value_or(TimeZone()));
}

}  // namespace

QFont report_font(double pixels, QFont::Weight weight) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(static_cast<int>(std::lround(pixels)));
    font.setWeight(weight);
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

double ReportPictures::height(const ReportPicture& picture, double width, const QFont& font) const {
    const Speaking speaking(answer_.language);
    const auto* box = box_of(answer_, picture);
    const auto* send = send_of(answer_, picture);
    if (send) {
        WeekStrips week;
        dress(week, font);
        set(week, answer_, *send);
        return week.heightForWidth(static_cast<int>(width));
    }
    if (!box) return 0;
    if (picture.of == ReportPicture::Of::fill) return std::ceil(width * fill_shape);
    DaysUntilFullGauge gauge;
    dress(gauge, font);
    set(gauge, answer_, *box);
    return gauge.heightForWidth(static_cast<int>(width));
}

void ReportPictures::paint(QPainter& painter, const QRectF& place, const ReportPicture& picture,
                           const QFont& font) const {
    const Speaking speaking(answer_.language);
    const auto* box = box_of(answer_, picture);
    if (const auto* send = send_of(answer_, picture)) {
        WeekStrips week;
        dress(week, font);
        set(week, answer_, *send);
        week.paintTo(painter, place, light_palette(), font);
    } else if (box && picture.of == ReportPicture::Of::fill) {
        BoxOutlook shown = *box;
        shown.name = short_name(box->name);
        paint_fill(painter, place, shown, answer_.outlook.horizon_days, answer_.outlook.as_of,
                   Prefixes::decimal, true, light_palette(), font);
    } else if (box) {
        DaysUntilFullGauge gauge;
        dress(gauge, font);
        set(gauge, answer_, *box);
        gauge.paintTo(painter, place, light_palette(), font);
    }
}

SvgDrawing ReportPictures::svg(const ReportPicture& picture) const {
    constexpr double line = 720, text = 12;
    const double width = std::round(line * picture.share);
    constexpr int dots_per_inch = 96;
    const QFont font = report_font(text);
    SvgDrawing drawing{width, height(picture, width, font), {}};
    if (drawing.height <= 0) return drawing;
    QByteArray file;
    QBuffer buffer(&file);
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setResolution(dots_per_inch);
    generator.setSize(QSizeF(drawing.width, drawing.height).toSize());
    generator.setViewBox(QRectF(0, 0, drawing.width, drawing.height));
    QPainter painter(&generator);
    paint(painter, QRectF(0, 0, drawing.width, drawing.height), picture, font);
    painter.end();
    // What is between the outermost tags, less the generator's own title and description.
    QString all = QString::fromUtf8(file);
    const auto after = [&all](const QString& tag, qsizetype from) {
        const qsizetype at = all.indexOf(tag, from);
        return at < 0 ? from : at + tag.size();
    };
    qsizetype from = all.indexOf(QStringLiteral("<svg"));
    from = all.indexOf(u'>', from) + 1;
    from = after(QStringLiteral("</title>"), from);
    from = after(QStringLiteral("</desc>"), from);
    all = all.mid(from, all.lastIndexOf(QStringLiteral("</svg>")) - from);
    all.replace(QStringLiteral("font-family=\"DejaVu Sans\""),
                QStringLiteral("font-family=\"DejaVu Sans, Verdana, sans-serif\""));
    drawing.elements = all.trimmed().toStdString();
    return drawing;
}

}  // namespace ullage
