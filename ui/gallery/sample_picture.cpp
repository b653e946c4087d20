// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gallery/sample_picture.h"

#include "ui/theme/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <limits>

namespace ullage::ui {

namespace {

double firstTrouble(const BoxOutlook& box) {
    return box.days_until_ceiling.p50.value_or(std::numeric_limits<double>::infinity());
}

/// The finding that tells how the box stands.
QString wordsAbout(const Answer& answer, const std::string& box) {
    for (const auto& finding : answer.findings)
        if (finding.text.find(box) != std::string::npos) return QString::fromStdString(finding.text);
    return {};
}

}  // namespace

SamplePicture SamplePicture::of(const Answer& answer) {
    SamplePicture picture;
    const auto& boxes = answer.outlook.boxes;
    const auto box = std::min_element(boxes.begin(), boxes.end(), [](const auto& a, const auto& b) {
        return firstTrouble(a) < firstTrouble(b);
    });
    if (box == boxes.end() || box->fill.size() < 2 || box->usable_bytes <= 0) return picture;
    const double days = answer.outlook.horizon_days;
    for (const auto& point : box->fill) {
        const double part = static_cast<double>((point.date - answer.outlook.as_of).count()) / days;
        const auto share = [&](double bytes) { return bytes / point.usable_bytes; };
        picture.points.push_back({std::clamp(part, 0.0, 1.0), share(point.used_bytes.p10),
                                  share(point.used_bytes.p50), share(point.used_bytes.p90)});
    }
    picture.ceiling = box->ceiling_bytes / box->usable_bytes;
    picture.words = wordsAbout(answer, box->name);
    picture.status = status_of(*box, days);
    return picture;
}

void drawPicture(QPainter& painter, const QRectF& place, const SamplePicture& picture, const Theme& theme) {
    if (picture.isEmpty()) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setClipRect(place);
    const auto at = [&](double part, double share) {
        return QPointF(place.left() + part * place.width(), place.bottom() - std::min(share, 1.05) * place.height());
    };
    QPainterPath band(at(picture.points.front().part, picture.points.front().low));
    for (const auto& p : picture.points) band.lineTo(at(p.part, p.low));
    for (auto p = picture.points.rbegin(); p != picture.points.rend(); ++p) band.lineTo(at(p->part, p->high));
    band.closeSubpath();
    painter.fillPath(band, theme.band_outer);
    QPainterPath middle(at(picture.points.front().part, picture.points.front().middle));
    for (const auto& p : picture.points) middle.lineTo(at(p.part, p.middle));
    painter.setPen(QPen(theme.median, 2));
    painter.drawPath(middle);
    painter.setPen(QPen(theme.ceiling, 1.2, Qt::DashLine));
    painter.drawLine(at(0, picture.ceiling), at(1, picture.ceiling));
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(place.bottomLeft() + QPointF(0, -0.5), place.bottomRight() + QPointF(0, -0.5));
    painter.drawLine(place.bottomLeft() + QPointF(0.5, 0), place.topLeft() + QPointF(0.5, 0));
    painter.restore();
}

}  // namespace ullage::ui
