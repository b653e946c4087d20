// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A button that paints itself: as high as its width needs, pressed by Enter as by Space.

#include <QAbstractButton>

namespace ullage {

class DrawnButton : public QAbstractButton {
    Q_OBJECT

public:
    using QAbstractButton::QAbstractButton;

    bool hasHeightForWidth() const override { return true; }

protected:
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
};

}  // namespace ullage
