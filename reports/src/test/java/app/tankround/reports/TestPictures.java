package app.tankround.reports;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.GradientPaint;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.ImageIO;

/** Drawn pictures of invented tanks. */
public final class TestPictures {

    private TestPictures() {}

    public static Picture jpeg(int width, int height, String alternativeText) {
        return new Picture(encode(tank(width, height, BufferedImage.TYPE_INT_RGB), "jpeg"), alternativeText);
    }

    public static Picture png(int width, int height, String alternativeText) {
        return new Picture(encode(tank(width, height, BufferedImage.TYPE_INT_ARGB), "png"), alternativeText);
    }

    public static Picture signature(String alternativeText) {
        var image = new BufferedImage(600, 200, BufferedImage.TYPE_INT_ARGB);
        Graphics2D graphics = image.createGraphics();
        graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        graphics.setColor(Color.BLACK);
        graphics.setStroke(new BasicStroke(7));
        for (int i = 0; i < 6; i++) {
            graphics.drawArc(30 + i * 80, 60 + 10 * (i % 3), 80, 90, 0, i % 2 == 0 ? 180 : -180);
        }
        graphics.dispose();
        return new Picture(encode(image, "png"), alternativeText);
    }

    static byte[] encode(BufferedImage image, String format) {
        var bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, format, bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    private static BufferedImage tank(int width, int height, int type) {
        var image = new BufferedImage(width, height, type);
        Graphics2D graphics = image.createGraphics();
        graphics.setPaint(new GradientPaint(0, 0, new Color(0x9cc8e8), 0, height, new Color(0x1d4a78)));
        graphics.fillRect(0, 0, width, height);
        graphics.setColor(new Color(0x6b5a45));
        graphics.fillOval(-width / 4, height * 2 / 3, width, height * 2 / 3);
        graphics.fillOval(width / 2, height * 3 / 4, width * 2 / 3, height / 2);
        graphics.setColor(new Color(0xe8a13c));
        graphics.fillOval(width / 3, height / 3, width / 6, height / 10);
        graphics.dispose();
        return image;
    }
}
