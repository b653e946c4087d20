// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/findings/findings_list.h"

#include "ui/theme/drawn_widget.h"
#include "ui/theme/status.h"
#include "ui/window/look.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QListView>
#include <QPainter>
#include <QStyledItemDelegate>
#include <QVBoxLayout>

namespace ullage::ui {

namespace {

constexpr int gap = 8, row_padding = 5, side_margin = 12;  ///< pixels
constexpr const char* out_of_date_property = "outOfDate";

/// Shape and word in two narrow columns, then the sentence, wrapped.
class FindingDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const auto* view = qobject_cast<const QListView*>(option.widget);
        const int width = view ? view->viewport()->width() : 600;
        const QRect text = option.fontMetrics.boundingRect(
            QRect(0, 0, std::max(80, width - textLeft(option) - side_margin), 1 << 14),
            Qt::TextWordWrap, index.data(Qt::DisplayRole).toString());
        return {width, text.height() + 2 * row_padding};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        QStyleOptionViewItem item = option;
        initStyleOption(&item, index);
        const QColor ink = item.palette.color(QPalette::Text);
        const auto level = static_cast<Level>(index.data(FindingsModel::LevelRole).toInt());
        const Theme theme = Theme::of(item.palette);
        drawRow(*painter, item, theme);
        painter->save();
        if (item.widget && item.widget->property(out_of_date_property).toBool())
            painter->setOpacity(stale_opacity);
        const int side = item.fontMetrics.height() - 1;
        const int top = item.rect.top() + row_padding;
        draw_status(*painter, QRect(item.rect.left() + side_margin, top, side, side), level, theme);
        painter->setFont(scaled(item.font, 1.0, QFont::DemiBold));
        painter->setPen(status_ink(level, theme));
        painter->drawText(
            QPoint(item.rect.left() + side_margin + side + gap, top + item.fontMetrics.ascent()),
            index.data(FindingsModel::LevelTextRole).toString());
        painter->setFont(item.font);
        painter->setPen(ink);
        painter->drawText(
            QRect(item.rect.left() + textLeft(option), top,
                  item.rect.width() - textLeft(option) - side_margin, item.rect.height()),
            Qt::TextWordWrap | Qt::AlignLeft | Qt::AlignTop, item.text);
        painter->restore();
    }

private:
    static int textLeft(const QStyleOptionViewItem& option) {
        const QFontMetrics bold(scaled(option.font, 1.0, QFont::DemiBold));
        int widest = 0;
        for (const Level level : {Level::overruns, Level::tight, Level::fits, Level::note})
            widest = std::max(widest, bold.horizontalAdvance(status_word(level)));
        return side_margin + option.fontMetrics.height() - 1 + gap + widest + 2 * gap;
    }
};

}  // namespace

void FindingsModel::setFindings(std::vector<Finding> findings) {
    beginResetModel();
    findings_ = std::move(findings);
    endResetModel();
}

int FindingsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(findings_.size());
}

QVariant FindingsModel::data(const QModelIndex& at, int role) const {
    if (!at.isValid()) return {};
    const Finding& finding = findings_[static_cast<std::size_t>(at.row())];
    switch (role) {
        case Qt::DisplayRole:
            return QString::fromStdString(finding.text);
        case Qt::AccessibleTextRole:
            return tr("%1: %2").arg(status_word(finding.level),
                                    QString::fromStdString(finding.text));
        case LevelRole:
            return static_cast<int>(finding.level);
        case LevelTextRole:
            return status_word(finding.level);
        case PointerRole:
            return QString::fromStdString(finding.about);
        default:
            return {};
    }
}

FindingsList::FindingsList(QWidget* parent)
    : QWidget(parent),
      model_(new FindingsModel(this)),
      view_(new QListView(this)),
      heading_(headingLabel(tr("Findings"), 1.0, this)),
      empty_(quietLabel({}, this)) {
    setObjectName(QStringLiteral("findingsPane"));
    view_->setObjectName(QStringLiteral("findings"));
    view_->setAccessibleName(tr("Findings"));
    view_->setModel(model_);
    view_->setItemDelegate(new FindingDelegate(view_));
    view_->setFrameShape(QFrame::NoFrame);
    view_->setResizeMode(QListView::Adjust);
    view_->setWordWrap(true);
    view_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    view_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    view_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 8, 0, 0);
    column->setSpacing(4);
    heading_->setContentsMargins(side_margin, 0, side_margin, 0);
    heading_->setBuddy(view_);
    empty_->setContentsMargins(side_margin, 4, side_margin, 8);
    empty_->setText(tr("Nothing to say yet."));
    column->addWidget(heading_);
    column->addWidget(empty_);
    column->addWidget(view_, 1);
    column->addStretch();
    view_->hide();

    const auto choose = [this](const QModelIndex& at) {
        emit chosen(at.data(FindingsModel::PointerRole).toString());
    };
    connect(view_, &QListView::activated, this, choose);
    connect(view_, &QListView::clicked, this, [this, choose](const QModelIndex& at) {
        // Where the style activates on a single click, `activated` has come already.
        if (!view_->style()->styleHint(QStyle::SH_ItemView_ActivateItemOnSingleClick, nullptr,
                                       view_))
            choose(at);
    });
}

QSize FindingsList::sizeHint() const { return {400, fontMetrics().height() * 9}; }

void FindingsList::setAnswer(const std::shared_ptr<const Answer>& answer) {
    model_->setFindings(answer ? answer->findings : std::vector<Finding>());
    const bool any = model_->rowCount() > 0;
    view_->setVisible(any);
    empty_->setVisible(!any);
}

void FindingsList::setOutOfDate(bool out_of_date) {
    view_->setProperty(out_of_date_property, out_of_date);
    view_->viewport()->update();
}

}  // namespace ullage::ui
