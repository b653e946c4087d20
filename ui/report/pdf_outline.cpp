// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/pdf_outline.h"

#include <QRegularExpression>

#include <algorithm>
#include <optional>

namespace ullage {
namespace {

/// The number after the last `word`, in what follows `from`.
std::optional<qsizetype> number_after(const QByteArray& text, const QByteArray& word,
                                      qsizetype from) {
    const qsizetype at = text.lastIndexOf(word);
    if (at < 0 || at < from) return {};
    qsizetype start = at + word.size();
    while (start < text.size() &&
           (text[start] == ' ' || text[start] == '\n' || text[start] == '\r'))
        ++start;
    qsizetype end = start;
    while (end < text.size() && text[end] >= '0' && text[end] <= '9') ++end;
    bool ok = false;
    const qlonglong number = text.mid(start, end - start).toLongLong(&ok);
    if (!ok) return {};
    return static_cast<qsizetype>(number);
}

/// The body of an object, between "obj" and "endobj"; empty if the table does not lead to it.
QByteArray body_of(const QByteArray& pdf, qsizetype table, qsizetype object) {
    constexpr qsizetype entry_bytes = 20, offset_digits = 10;
    qsizetype entries = pdf.indexOf('\n', table) + 1;
    entries = pdf.indexOf('\n', entries) + 1;  // after "xref" and "0 64"
    const qsizetype entry = entries + object * entry_bytes;
    if (entries <= 0 || entry + entry_bytes > pdf.size()) return {};
    bool ok = false;
    const qlonglong offset = pdf.mid(entry, offset_digits).toLongLong(&ok);
    const QByteArray start = QByteArray::number(object) + " 0 obj";
    if (!ok || offset >= pdf.size() || !pdf.mid(offset, start.size()).startsWith(start)) return {};
    const qsizetype end = pdf.indexOf("endobj", offset);
    if (end < 0) return {};
    return pdf.mid(offset + start.size(), end - offset - start.size());
}

/// As a text string of 16-bit units, in hexadecimal: no byte of a title needs escaping.
QByteArray text_string(const QString& text) {
    QByteArray hex = "<FEFF";
    for (const QChar c : text)
        hex += QByteArray::number(c.unicode(), 16).rightJustified(4, '0').toUpper();
    return hex + ">";
}

QByteArray reference(qsizetype object) { return QByteArray::number(object) + " 0 R"; }

}  // namespace

QByteArray with_outline(const QByteArray& pdf, const std::vector<OutlineMark>& marks,
                        const QByteArray& language) {
    const qsizetype trailer = pdf.lastIndexOf("trailer");
    const auto root = number_after(pdf, "/Root", trailer),
               info = number_after(pdf, "/Info", trailer),
               size = number_after(pdf, "/Size", trailer),
               table = number_after(pdf, "startxref", trailer);
    if (marks.empty() || trailer < 0 || !root || !size || !table ||
        !pdf.mid(*table).startsWith("xref"))
        return pdf;
    QByteArray catalogue = body_of(pdf, *table, *root);
    const qsizetype end = catalogue.lastIndexOf(">>");
    const auto pages = number_after(catalogue, "/Pages", 0);
    if (end < 0 || !pages) return pdf;

    std::vector<QByteArray> kids;
    const QString list = QString::fromLatin1(body_of(pdf, *table, *pages));
    static const QRegularExpression kid(QStringLiteral("(\\d+) 0 R"));
    const qsizetype from = list.indexOf(u'['), to = list.indexOf(u']');
    for (auto match = kid.globalMatch(list.mid(from, to - from)); match.hasNext();)
        kids.push_back(match.next().captured(0).toLatin1());
    const auto known = [&](const OutlineMark& m) {
        return m.page >= 0 && m.page < static_cast<int>(kids.size());
    };
    if (!std::all_of(marks.begin(), marks.end(), known)) return pdf;

    QByteArray out = pdf;
    if (!out.endsWith('\n')) out += '\n';
    std::vector<qsizetype> offsets;
    const auto object = [&](qsizetype number, const QByteArray& body) {
        offsets.push_back(out.size());
        out += QByteArray::number(number) + " 0 obj\n" + body.trimmed() + "\nendobj\n";
    };
    const qsizetype outlines = *size, count = static_cast<qsizetype>(marks.size());
    catalogue.insert(end, "/Outlines " + reference(outlines) + "\n/PageMode /UseOutlines\n/Lang (" +
                              language + ")\n/ViewerPreferences << /DisplayDocTitle true >>\n");
    object(*root, catalogue);
    const auto number_of = [&](qsizetype mark) { return outlines + 1 + mark; };
    const auto level = [&](qsizetype i) { return i > 0 ? marks[static_cast<std::size_t>(i)].level : 0; };
    // The item before and after one on its level, within the same section; −1: none.
    const auto beside = [&](qsizetype i, qsizetype step) -> qsizetype {
        for (qsizetype at = i + step; at >= 0 && at < count; at += step) {
            if (level(at) == level(i)) return at;
            if (level(at) < level(i)) break;
        }
        return -1;
    };
    qsizetype last = 0;
    for (qsizetype i = 0; i < count; ++i)
        if (level(i) == 0) last = i;
    object(outlines, "<< /Type /Outlines /First " + reference(number_of(0)) + " /Last " +
                         reference(number_of(last)) + " /Count " + QByteArray::number(count) +
                         " >>");
    for (qsizetype i = 0; i < count; ++i) {
        const OutlineMark& mark = marks[static_cast<std::size_t>(i)];
        qsizetype parent = -1;
        for (qsizetype at = i; level(i) > 0 && at >= 0 && parent < 0; --at)
            if (level(at) == 0) parent = at;
        qsizetype end_of_children = i + 1;
        while (level(i) == 0 && end_of_children < count && level(end_of_children) > 0)
            ++end_of_children;
        QByteArray item = "<< /Title " + text_string(mark.title) + " /Parent " +
                          reference(parent < 0 ? outlines : number_of(parent));
        if (const qsizetype before = beside(i, -1); before >= 0)
            item += " /Prev " + reference(number_of(before));
        if (const qsizetype after = beside(i, 1); after >= 0)
            item += " /Next " + reference(number_of(after));
        if (level(i) == 0 && end_of_children > i + 1)
            item += " /First " + reference(number_of(i + 1)) + " /Last " +
                    reference(number_of(end_of_children - 1)) + " /Count " +
                    QByteArray::number(end_of_children - i - 1);
        item += " /Dest [" + kids[static_cast<std::size_t>(mark.page)] + " /XYZ 0 " +
                QByteArray::number(mark.top, 'f', 1) + " null] >>";
        object(number_of(i), item);
    }
    const qsizetype new_table = out.size();
    const auto entry = [](qsizetype offset) {
        return QByteArray::number(offset).rightJustified(10, '0') + " 00000 n \n";
    };
    out += "xref\n" + QByteArray::number(*root) + " 1\n" + entry(offsets.front());
    out += QByteArray::number(outlines) + ' ' + QByteArray::number(count + 1) + '\n';
    for (std::size_t i = 1; i < offsets.size(); ++i) out += entry(offsets[i]);
    out += "trailer\n<<\n/Size " + QByteArray::number(outlines + count + 1) + "\n";
    if (info) out += "/Info " + reference(*info) + "\n";
    out += "/Root " + reference(*root) + "\n/Prev " + QByteArray::number(*table) +
           "\n>>\nstartxref\n" + QByteArray::number(new_table) + "\n%%EOF\n";
    return out;
}

}  // namespace ullage
