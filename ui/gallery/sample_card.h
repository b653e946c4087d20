// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A sample as a card: its forecast in small, its name, and what it shows. A button.

#include "ui/gallery/sample_picture.h"
#include "ui/theme/drawn_button.h"

namespace ullage::ui {

class SampleCard : public DrawnButton {
    Q_OBJECT

public:
    SampleCard(const QString& name, const QString& shows, QWidget* parent = nullptr);

    /// The picture may come later than the card.
    void setPicture(const SamplePicture& picture);
    const SamplePicture& picture() const { return picture_; }

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    int heightForWidth(int width) const override;
    static int leastWidth(const QFont& font);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    struct Places {
        QRectF picture, name, shows;
        double height = 0;
    };
    Places placesFor(double width) const;

    QString shows_;
    SamplePicture picture_;
};

}  // namespace ullage::ui
