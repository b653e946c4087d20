// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A button that paints itself: as high as its width needs, pressed by Enter as by Space.

#include <QAbstractButton>

namespace ullage {

struct Theme;

class DrawnButton : public QAbstractButton {
    Q_OBJECT

public:
    using QAbstractButton::QAbstractButton;

    bool hasHeightForWidth() const override { return true; }

protected:
    /// Of a card: takes the keyboard, is lit under the pointer, as high as its width needs.
    void beCard();
    /// A card's frame and ground: chosen, under the pointer, with the keyboard's focus.
    void drawCard(QPainter& painter, const Theme& theme) const;

    void changeEvent(QEvent* event) override;
    void enterEvent(QEnterEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
};

}  // namespace ullage
