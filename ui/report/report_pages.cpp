// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/report_pages.h"

#include "ui/report/pdf_outline.h"
#include "ui/report/report_pictures.h"
#include "ui/report/table_layout.h"
#include "ui/report/text_block.h"

#include <QBuffer>
#include <QFontMetricsF>
#include <QMarginsF>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

#include <algorithm>

namespace ullage {

using namespace paper;

namespace {

constexpr double dots_per_inch = 104;  // 12 of them are 8.3 points
constexpr double heading_size = 16, part_size = 13, title_size = 18, answer_size = 13;
constexpr double side_margin = 56, top_margin = 44, bottom_margin = 58;

/// Sizes of running text and of tables: the appendix is for who checks, and is set smaller.
struct Sizes {
    double text = 12, small = 11;
};
constexpr Sizes body, appendix{11, 10};

}  // namespace

/// Places one thing under the other.
class PageSetter {
public:
    PageSetter(ReportPages& pages, const QImage& logo)
        : pages_(pages), room_(pages.room_), pictures_(*pages.answer_), y_(room_.top()) {
        title(logo);
        for (const auto& section : pages.content_.sections) {
            if (section.appendix && !in_appendix_) {
                in_appendix_ = true;
                size_ = appendix;
                if (!at_top()) next_page();
            }
            heading(qstring(section.heading), section.parts);
            for (std::size_t i = 0; i < section.parts.size(); ++i) {
                if (std::holds_alternative<ReportHeading>(section.parts[i]))
                    need(with_its_pictures(section.parts, i));
                std::visit([this](const auto& p) { put(p); }, section.parts[i]);
            }
        }
        pages_.pages_ = page_ + 1;
    }

private:
    double left() const { return room_.bottom() - y_; }
    bool at_top() const { return y_ <= room_.top(); }
    void next_page() {
        ++page_;
        y_ = room_.top();
    }
    void need(double height) {
        if (height > left() && !at_top()) next_page();
    }
    void gap(double height) {
        if (!at_top()) y_ += height;
    }
    void place(const QRectF& where, QString text, std::function<void(QPainter&)> paint) {
        pages_.placed_.push_back({page_, where, std::move(text), std::move(paint)});
    }

    /// Whole if it is short, else broken between lines.
    void text(const Block& b, double indent, double right = 0) {
        constexpr int short_text = 4;
        if (b.lines() <= short_text) need(b.height);
        if (b.height <= left()) {
            const QPointF at(room_.left() + indent, y_);
            place({at, QSizeF(room_.width() - indent - right, b.height)}, b.layout->text(),
                  [b, at](QPainter& p) { draw_block(p, b, at); });
            y_ += b.height;
            return;
        }
        for (int line = 0; line < b.lines(); ++line) {
            const double height = (line + 1 < b.lines() ? b.top(line + 1) : b.height) - b.top(line);
            need(height);
            const QPointF at(room_.left() + indent, y_);
            const QTextLine part = b.layout->lineAt(line);
            place({at, QSizeF(room_.width() - indent - right, height)},
                  b.layout->text().mid(part.textStart(), part.textLength()),
                  [b, line, at](QPainter& p) { draw_line(p, b, line, at); });
            y_ += height;
        }
    }

    /// The logo at the right, the title and who it is for at the left, then the answer.
    void title(const QImage& logo) {
        double beside = 0, logo_bottom = y_;
        if (!logo.isNull()) {
            const QSizeF size = QSizeF(logo.size()).scaled(170, 64, Qt::KeepAspectRatio);
            const QRectF where(QPointF(room_.right() - size.width(), y_), size);
            place(where, {}, [logo, where](QPainter& p) {
                p.setRenderHint(QPainter::SmoothPixmapTransform);
                p.drawImage(where, logo);
            });
            beside = size.width() + 20;
            logo_bottom = where.bottom();
        }
        const double width = room_.width() - beside;
        text(block(qstring(pages_.content_.title), text_font(title_size, QFont::Bold), width), 0,
             beside);
        y_ += 6;
        QString who;
        for (const auto& [name, value] : pages_.content_.particulars)
            who += (who.isEmpty() ? QString() : QStringLiteral(" · ")) + qstring(name) +
                   QStringLiteral(": ") + qstring(value);
        text(block(who, text_font(size_.text), width, muted), 0, beside);
        if (page_ == 0) y_ = std::max(y_, logo_bottom);
        y_ += 12;
        const double top = y_;
        const int page = page_;
        pages_.marks_.push_back({qstring(pages_.content_.answer_heading), page_, y_, 0});
        text(block(qstring(pages_.content_.answer_heading), text_font(part_size, QFont::Bold),
                   room_.width() - 16),
             16);
        y_ += 3;
        for (const auto& sentence : pages_.content_.answer) {
            text(block(qstring(sentence), text_font(answer_size), room_.width() - 16), 16);
            y_ += 4;
        }
        if (page == page_) {
            const QRectF bar(room_.left(), top, 5, y_ - top - 4);
            place(bar, {}, [bar](QPainter& p) { p.fillRect(bar, ink); });
        }
    }

    void heading(const QString& words, const std::vector<ReportPart>& parts) {
        double follows = 110;  // at least so much of what comes
        if (const auto* table = parts.empty() ? nullptr : std::get_if<ReportTable>(&parts.front()))
            follows = std::max(
                follows,
                12 + least_height(laid(*table, 1, room_.width(), size_.small), room_.height()));
        const Block b = block(words, text_font(heading_size, QFont::Bold), room_.width());
        need(22 + b.height + follows);
        gap(10);
        const QRectF line(room_.left(), y_, room_.width(), 1.5);
        place(line, {}, [line](QPainter& p) { p.fillRect(line, ink); });
        pages_.marks_.push_back({words, page_, y_, 0});
        y_ += 5;
        text(b, 0);
        y_ += 2;
    }

    /// The room that a heading, what is said below it and its pictures take; 0 without pictures.
    double with_its_pictures(const std::vector<ReportPart>& parts, std::size_t heading) const {
        double height = 30;
        for (std::size_t i = heading + 1; i < parts.size(); ++i) {
            if (const auto* row = std::get_if<ReportRow>(&parts[i]))
                return height + height_of(*row);
            const auto* list = std::get_if<ReportList>(&parts[i]);
            if (!list) break;
            for (const auto& item : list->items)
                height += item_block(item).height + item_gap;
        }
        return 0;
    }

    void put(const ReportHeading& h) {
        constexpr double follows = 80;
        const Block b = block(qstring(h.text), text_font(part_size, QFont::Bold), room_.width());
        need(8 + b.height + follows);
        gap(8);
        pages_.marks_.push_back({qstring(h.text), page_, y_, 1});
        text(b, 0);
        y_ += 1;
    }

    void put(const ReportText& t) {
        const bool meaning = t.as == ReportText::As::explained;
        const double indent = meaning ? 22 : 0;
        const Block b = block(qstring(t.text), text_font(meaning ? size_.small : size_.text),
                              room_.width() - indent, meaning ? muted : ink);
        gap(meaning ? 3 : 6);
        text(b, indent);
        gap(meaning ? 3 : 4);
    }

    Block item_block(const ReportItem& item) const {
        const QString mark =
            item.mark.empty() ? QString() : qstring(item.mark) + QStringLiteral(": ");
        return block(mark + qstring(item.text), text_font(size_.text), room_.width() - 18, ink,
                     mark.size());
    }

    void put(const ReportList& list) {
        for (const auto& item : list.items) {
            const Block b = item_block(item);
            gap(item_gap);
            if (b.lines() <= 4)
                need(b.height);
            else
                need(2 * b.line_height(0));
            const QRectF dot(room_.left() + 5, y_ + b.line_height(0) / 2 - 2, 4, 4);
            place(dot, {}, [dot](QPainter& p) {
                p.setPen(Qt::NoPen);
                p.setBrush(ink);
                p.drawEllipse(dot);
            });
            text(b, 18);
        }
        gap(4);
    }

    static constexpr double between_pictures = 14, item_gap = 3;
    QFont picture_font() const { return report_font(size_.small - 1); }
    double room_of(const ReportRow& row) const {
        return room_.width() - between_pictures * static_cast<double>(row.pictures.size() - 1);
    }
    double height_of(const ReportRow& row) const {
        double height = 0;
        for (const ReportPicture& picture : row.pictures)
            height = std::max(height, pictures_.height(picture, room_of(row) * picture.share,
                                                       picture_font()));
        return height;
    }

    void put(const ReportPicture& picture) { put(ReportRow{{picture}}); }

    void put(const ReportRow& row) {
        const QFont font = picture_font();
        const double room = room_of(row), height = height_of(row);
        QString words;
        for (const ReportPicture& picture : row.pictures)
            if (picture.captioned || height <= 0)
                words += (words.isEmpty() ? "" : " ") + qstring(picture.text);
        const Block note = block(words, text_font(size_.small), room_.width(), muted);
        gap(5);
        need(height + note.height + 2);
        double x = room_.left();
        for (const ReportPicture& picture : row.pictures) {
            const double width = room * picture.share;
            if (pictures_.height(picture, width, font) <= 0 || height > left()) continue;
            const QRectF where(x, y_, width, height);
            const auto answer = pages_.answer_;
            place(where, {}, [answer, where, picture, font](QPainter& p) {
                ReportPictures(*answer).paint(p, where, picture, font);
            });
            x += width + between_pictures;
        }
        if (height <= left()) y_ += height + 2;
        text(note, 0);
        gap(4);
    }

    void put(const ReportTable& table) {
        const LaidTable t = laid(table, table.rows.size(), room_.width(), size_.small);
        gap(7);
        need(least_height(t, room_.height()));
        text(t.caption, 0);
        y_ += 3;
        const double body_room = room_.height() - t.header.height - 4;
        const auto put_header = [&] { put_row(t.header, t.widths, 1.5, ink); };
        put_header();
        for (const auto& row : t.rows) {
            if (row.height > body_room) {
                put_broken(row, t.widths, put_header);
                continue;
            }
            if (row.height > left()) {
                next_page();
                put_header();
            }
            put_row(row, t.widths, 0.75, rule);
        }
        gap(6);
    }

    void put_row(const TableRow& row, const std::vector<double>& widths, double thick,
                 const QColor& colour) {
        double x = room_.left();
        for (std::size_t c = 0; c < row.cells.size(); ++c) {
            const Block& b = row.cells[c];
            const QPointF at(x, y_ + cell_air);
            place({at, QSizeF(widths[c] - 1, b.height)}, b.layout->text(),
                  [b, at](QPainter& p) { draw_block(p, b, at); });
            x += widths[c];
        }
        y_ += row.height;
        under(thick, colour);
    }

    void under(double thick, const QColor& colour) {
        const QRectF line(room_.left(), y_ - thick, room_.width(), thick);
        place(line, {}, [line, colour](QPainter& p) { p.fillRect(line, colour); });
    }

    template <class Header>
    void put_broken(const TableRow& row, const std::vector<double>& widths,
                    const Header& put_header) {
        int most = 0;
        for (const auto& cell : row.cells) most = std::max(most, cell.lines());
        const double step = row.cells.front().line_height(0) * 1.2;
        for (int line = 0; line < most; ++line) {
            if (step > left()) {
                next_page();
                put_header();
            }
            double x = room_.left();
            for (std::size_t c = 0; c < row.cells.size(); ++c) {
                if (line < row.cells[c].lines()) {
                    const Block b = row.cells[c];
                    const QPointF at(x, y_);
                    const QTextLine part = b.layout->lineAt(line);
                    place({at, QSizeF(widths[c] - 1, step)},
                          b.layout->text().mid(part.textStart(), part.textLength()),
                          [b, line, at](QPainter& p) { draw_line(p, b, line, at); });
                }
                x += widths[c];
            }
            y_ += step;
        }
    }

    ReportPages& pages_;
    QRectF room_;
    ReportPictures pictures_;
    double y_ = 0;
    int page_ = 0;
    Sizes size_ = body;
    bool in_appendix_ = false;
};

ReportPages::ReportPages(std::shared_ptr<const Answer> answer, ReportContent content, Paper paper,
                         const QImage& logo)
    : answer_(std::move(answer)), content_(std::move(content)), paper_(paper) {
    const QPageSize page(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter);
    size_ = page.size(QPageSize::Inch) * dots_per_inch;
    room_ = QRectF(QPointF(0, 0), size_)
                .adjusted(side_margin, top_margin, -side_margin, -bottom_margin);
    PageSetter(*this, logo);
}

void ReportPages::paint(QPainter& painter, int page) const {
    painter.save();
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    for (const auto& thing : placed_) {
        if (thing.page != page) continue;
        painter.save();
        thing.paint(painter);
        painter.restore();
    }
    const QFont font = report_font(10);
    const QString number = qstring(content_.page_of)
                               .replace(QStringLiteral("{0}"), QString::number(page + 1))
                               .replace(QStringLiteral("{1}"), QString::number(count()));
    const double width = QFontMetricsF(font).horizontalAdvance(number);
    const QRectF foot(room_.left(), room_.bottom() + 16, room_.width(), 20);
    painter.setFont(font);
    painter.setPen(muted);
    painter.drawText(foot, Qt::AlignRight | Qt::AlignTop, number);
    painter.drawText(foot, Qt::AlignLeft | Qt::AlignTop,
                     QFontMetricsF(font).elidedText(qstring(content_.title), Qt::ElideRight,
                                                    foot.width() - width - 24));
    painter.restore();
}

QByteArray ReportPages::pdf() const {
    constexpr int fine = 1200;
    QByteArray file;
    QBuffer buffer(&file);
    if (!buffer.open(QIODevice::WriteOnly)) return {};
    QPdfWriter writer(&buffer);
    writer.setResolution(fine);
    writer.setPageSize(QPageSize(paper_ == Paper::a4 ? QPageSize::A4 : QPageSize::Letter));
    writer.setPageMargins(QMarginsF(0, 0, 0, 0));
    writer.setTitle(qstring(content_.title));
    writer.setCreator(QStringLiteral("Ullage"));
    QPainter painter;
    if (!painter.begin(&writer)) return {};
    for (int page = 0; page < count(); ++page) {
        if (page > 0 && !writer.newPage()) return {};
        painter.save();
        painter.scale(fine / dots_per_inch, fine / dots_per_inch);
        paint(painter, page);
        painter.restore();
    }
    painter.end();
    buffer.close();
    constexpr double points = 72 / dots_per_inch;
    std::vector<OutlineMark> marks;
    for (const Mark& mark : marks_)
        marks.push_back(
            {mark.title, mark.page, (size_.height() - mark.y) * points, mark.level});
    return with_outline(file, marks, QByteArray::fromStdString(content_.language));
}

}  // namespace ullage
