package app.tankround.network.web;

import io.nayuki.qrcodegen.QrCode;

/** A QR code (ISO/IEC 18004) as a drawing. */
final class QrSvg {

    /** Empty modules around it, as the standard wants. */
    private static final int QUIET = 4;

    private QrSvg() {}

    /** Dark on light whatever the page's colours, since many cameras read no other. */
    static String of(String text) {
        QrCode code = QrCode.encodeText(text, QrCode.Ecc.MEDIUM);
        var dark = new StringBuilder();
        for (int y = 0; y < code.size; y++) {
            for (int x = 0; x < code.size; x++) {
                if (code.getModule(x, y)) {
                    dark.append("M%d,%dh1v1h-1z".formatted(x + QUIET, y + QUIET));
                }
            }
        }
        int side = code.size + 2 * QUIET;
        return """
                <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" shape-rendering="crispEdges">\
                <rect width="%d" height="%d" fill="#fff"/><path fill="#000" d="%s"/></svg>
                """.formatted(side, side, side, side, dark);
    }
}
