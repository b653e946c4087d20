// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/report_page.h"

#include "core/measure/evidence.h"
#include "core/site/replace_file.h"
#include "ui/report/report_preview.h"
#include "ui/report/write_report.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QComboBox>
#include <QDir>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace ullage {

ReportPage::ReportPage(QWidget* parent) : Page(parent) {
    state_text_ = new QLabel;
    said_ = new QLabel;
    for (QLabel* label : {state_text_, said_}) {
        label->setTextFormat(Qt::PlainText);
        label->setWordWrap(true);
        label->setContentsMargins(static_cast<int>(ring_room), 0, static_cast<int>(ring_room), 0);
        label->hide();
    }
    said_->setObjectName(QStringLiteral("reportSaid"));
    pdf_ = new QPushButton(tr("Save as &PDF…"));
    html_ = new QPushButton(tr("Save as &web page…"));
    logo_button_ = new QPushButton(tr("&Logo…"));
    pdf_->setObjectName(QStringLiteral("reportPdf"));
    html_->setObjectName(QStringLiteral("reportHtml"));
    logo_button_->setObjectName(QStringLiteral("reportLogo"));
    logo_button_->setToolTip(tr("A PNG or JPEG for the first page; none takes it away"));
    paper_ = makeChooser(tr("Pa&per"), QStringLiteral("paperChooser"));
    paper_.box->addItems({tr("A4"), tr("Letter")});

    language_ = makeChooser(tr("La&nguage"), QStringLiteral("languageChooser"));
    // Each in its own language, for whoever reads only that.
    language_.box->addItem(QStringLiteral("English"), static_cast<int>(Language::english));
    language_.box->addItem(QStringLiteral("Deutsch"), static_cast<int>(Language::german));
    setLanguage(Words::language());

    auto* row = new QHBoxLayout;
    constexpr int room = static_cast<int>(ring_room);
    row->setContentsMargins(room, 0, room, 0);
    row->addWidget(pdf_);
    row->addWidget(html_);
    row->addWidget(logo_button_);
    row->addStretch(1);
    auto* choices = new QHBoxLayout;
    choices->setContentsMargins(room, 0, room, 0);
    for (const Chooser& chooser : {language_, paper_}) {
        choices->addWidget(chooser.row);
        chooser.box->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
        chooser.box->setMinimumContentsLength(6);
    }
    choices->addStretch(1);
    preview_ = new ReportPreview;
    sheet()->addWidget(state_text_);
    sheet()->addLayout(row);
    sheet()->addLayout(choices);
    sheet()->addWidget(said_);
    sheet()->addWidget(preview_);
    sheet()->addStretch(1);

    connect(pdf_, &QPushButton::clicked, this, [this] { choose(As::pdf); });
    connect(html_, &QPushButton::clicked, this, [this] { choose(As::html); });
    connect(logo_button_, &QPushButton::clicked, this, &ReportPage::chooseLogo);
    for (const Chooser& chooser : {language_, paper_})
        connect(chooser.box, &QComboBox::currentIndexChanged, this, [this] {
            laid_ = false;
            lay();
        });
    refresh();
    applyState();
}

void ReportPage::setLanguage(Language language) {
    language_.box->setCurrentIndex(language_.box->findData(static_cast<int>(language)));
}

QString ReportPage::said() const { return said_->text(); }

void ReportPage::tell(const QString& words) {
    said_->setText(words);
    said_->setVisible(!words.isEmpty());
}

void ReportPage::refresh() {
    laid_ = false;
    tell({});
    if (!answer()) {
        pages_.reset();
        told_.reset();
        preview_->setPages(nullptr);
        const QString detail = tr("The pages that a client gets appear here.");
        if (state() == ShownState::updating)
            say(tr("Working out the forecast…"), detail);
        else if (state() == ShownState::failed)
            say(tr("No forecast"), tr("The calculation failed. What to mend is said below."));
        else if (state() == ShownState::cancelled)
            say(tr("No forecast"), tr("The calculation was cancelled."));
        else
            say(tr("No answer yet"), detail);
        return;
    }
    say({}, {});
    if (isVisible()) lay();
}

/// Only when it is seen or saved: each answer would cost a layout else.
void ReportPage::lay() {
    if (laid_ || !answer()) return;
    // The window's may be in binary units.
    told_ = std::make_shared<const Answer>(
        in_language(*answer(), static_cast<Language>(language_.box->currentData().toInt())));
    pages_ = std::make_shared<const ReportPages>(
        told_, report_of(*told_), paper_.box->currentIndex() == 1 ? Paper::letter : Paper::a4,
        logo_);
    laid_ = true;
    preview_->setPages(pages_);
}

void ReportPage::showEvent(QShowEvent* event) {
    Page::showEvent(event);
    lay();
}

bool ReportPage::save(const QString& path, As as) {
    lay();
    if (!pages_) return false;
    const std::string bytes =
        as == As::pdf ? pages_->pdf().toStdString() : html_of(*told_, pages_->report(), logo_);
    const auto written = replace_file(QFile::encodeName(path).toStdString(), bytes);
    const QString name = QFileInfo(path).fileName();
    tell(written ? tr("%1 was saved.").arg(name)
                 : tr("%1 was not saved: %2.").arg(name, QString::fromStdString(written.error())));
    return written.has_value();
}

bool ReportPage::useLogo(const QString& path) {
    QImage picture;
    if (!path.isEmpty()) {
        constexpr std::size_t most_bytes = 16U << 20U;
        const auto bytes = read_text_file(QFile::encodeName(path).toStdString(), most_bytes);
        const auto read =
            bytes ? read_logo(QByteArray::fromStdString(*bytes)) : tl::unexpected(bytes.error());
        if (!read || read->isNull()) {
            tell(tr("%1 is no logo: %2.")
                     .arg(QFileInfo(path).fileName(),
                          read ? tr("it is empty") : QString::fromStdString(read.error())));
            return false;
        }
        picture = *read;
    }
    logo_ = picture;
    laid_ = false;
    tell({});
    lay();
    return true;
}

void ReportPage::choose(As as) {
    if (!answer()) return;
    QString name = QString::fromStdString(answer()->site.name);
    name.replace(u'/', u'-');
    const QString suffix = as == As::pdf ? QStringLiteral(".pdf") : QStringLiteral(".html");
    const QString kinds = as == As::pdf ? tr("PDF (*.pdf)") : tr("Web pages (*.html)");
    QString path =
        QFileDialog::getSaveFileName(this, tr("Save the report"),
                                     QDir(folder_.isEmpty() ? QDir::homePath() : folder_)
                                         .filePath((name.isEmpty() ? tr("report") : name) + suffix),
                                     kinds);
    if (path.isEmpty()) return;
    if (!QFileInfo(path).fileName().contains(u'.')) path += suffix;
    save(path, as);
}

void ReportPage::chooseLogo() {
    useLogo(QFileDialog::getOpenFileName(this, tr("A logo for the first page"), folder_,
                                         tr("Pictures (*.png *.jpg *.jpeg)")));
}

void ReportPage::applyState() {
    preview_->setState(state());
    const bool current = answer() && !out_of_date(state());
    for (QPushButton* button : {pdf_, html_}) button->setEnabled(current);
    state_text_->setText(state_words(state()));
    state_text_->setVisible(!state_text_->text().isEmpty());
}

void ReportPage::retheme() {
    const Theme theme = Theme::of(palette());
    state_text_->setFont(scaled(font(), 1.0, QFont::DemiBold));
    set_text_colour(*said_, theme.ink);
}

}  // namespace ullage
