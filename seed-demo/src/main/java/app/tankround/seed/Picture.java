package app.tankround.seed;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.GradientPaint;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.SplittableRandom;
import javax.imageio.ImageIO;

/** Draws a tank as a photo of it might look: the demo brings no photo of anybody's. */
final class Picture {

    private static final int WIDTH = 960;
    private static final int HEIGHT = 720;
    private static final int PANE_TOP = 90;
    private static final int SAND = HEIGHT - 130;
    private static final Color FILM = new Color(112, 74, 28, 96);

    private final BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
    private final Graphics2D pen = image.createGraphics();
    private final PlannedSystem system;
    private final SplittableRandom random;

    private Picture(PlannedSystem system, SplittableRandom random) {
        this.system = system;
        this.random = random;
    }

    /** A JPEG of the system, on every fill the same for the same text. */
    static byte[] jpeg(PlannedSystem system, String seed) {
        var picture = new Picture(system, Waters.random(seed));
        picture.draw();
        var bytes = new ByteArrayOutputStream();
        try {
            if (!ImageIO.write(picture.image, "jpg", bytes)) {
                throw new IllegalStateException("this Java platform writes no JPEG");
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return bytes.toByteArray();
    }

    private void draw() {
        pen.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        boolean salt = system.kind().isSalt();
        water(salt);
        rocks(salt);
        sand();
        for (int count = 0; count < 9; count++) {
            growth(salt);
        }
        for (int count = 0; count < 7; count++) {
            fish(salt);
        }
        if (system.story() == Story.BROWN_FILM) {
            film();
        }
        frame();
        pen.dispose();
    }

    private void water(boolean salt) {
        Color above = salt ? new Color(86, 158, 214) : new Color(140, 184, 160);
        Color below = salt ? new Color(12, 52, 104) : new Color(30, 70, 58);
        pen.setPaint(new GradientPaint(0, PANE_TOP, above, 0, SAND, below));
        pen.fillRect(0, 0, WIDTH, HEIGHT);
        pen.setColor(new Color(255, 255, 255, 26));
        for (int ray = 0; ray < 6; ray++) {
            int x = random.nextInt(WIDTH);
            var beam = new Path2D.Double();
            beam.moveTo(x, PANE_TOP);
            beam.lineTo(x + 40, PANE_TOP);
            beam.lineTo(x + 150, SAND);
            beam.lineTo(x + 40, SAND);
            beam.closePath();
            pen.fill(beam);
        }
    }

    private void sand() {
        pen.setPaint(new GradientPaint(0, SAND, new Color(226, 210, 178), 0, HEIGHT, new Color(168, 148, 116)));
        var ground = new Path2D.Double();
        ground.moveTo(0, HEIGHT);
        ground.lineTo(0, SAND);
        for (int x = 0; x <= WIDTH; x += 120) {
            ground.quadTo(x + 60.0, SAND - 24 + random.nextInt(40), x + 120.0, SAND + random.nextInt(20));
        }
        ground.lineTo(WIDTH, HEIGHT);
        ground.closePath();
        pen.fill(ground);
    }

    private void rocks(boolean salt) {
        for (int count = 0; count < 14; count++) {
            int shade = 60 + random.nextInt(60);
            pen.setColor(salt ? new Color(shade + 30, shade + 10, shade + 40) : new Color(shade, shade, shade - 10));
            double width = 110 + random.nextInt(150);
            double height = 80 + random.nextInt(130);
            double x = 60 + random.nextInt(WIDTH - 240);
            pen.fill(new Ellipse2D.Double(x, SAND + 30 - height * (0.5 + random.nextDouble() * 0.8), width, height));
        }
    }

    private void growth(boolean salt) {
        double foot = 80 + random.nextInt(WIDTH - 160);
        double base = SAND - random.nextInt(salt ? 130 : 20);
        float hue = salt ? random.nextInt(100) / 100f : 0.27f + random.nextInt(12) / 100f;
        pen.setColor(Color.getHSBColor(hue, 0.6f, 0.8f));
        pen.setStroke(new BasicStroke(salt ? 9 : 6, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        int stems = 4 + random.nextInt(5);
        for (int stem = 0; stem < stems; stem++) {
            double lean = (stem - stems / 2.0) * (salt ? 16 : 9);
            double tall = (salt ? 50 : 130) + random.nextInt(salt ? 50 : 150);
            var curve = new Path2D.Double();
            curve.moveTo(foot + lean / 3, base);
            curve.quadTo(foot + lean, base - tall / 2, foot + lean * 1.8, base - tall);
            pen.draw(curve);
        }
    }

    private void fish(boolean salt) {
        double x = 120 + random.nextInt(WIDTH - 240);
        double y = PANE_TOP + 60 + random.nextInt(SAND - PANE_TOP - 150);
        double length = (salt ? 54 : 34) + random.nextInt(30);
        double towards = random.nextBoolean() ? 1 : -1;
        pen.setColor(Color.getHSBColor(random.nextInt(100) / 100f, 0.75f, 0.95f));
        pen.fill(new Ellipse2D.Double(x - length / 2, y - length / 4, length, length / 2));
        var tail = new Path2D.Double();
        tail.moveTo(x - towards * length * 0.4, y);
        tail.lineTo(x - towards * length * 0.75, y - length / 4);
        tail.lineTo(x - towards * length * 0.75, y + length / 4);
        tail.closePath();
        pen.fill(tail);
        pen.setColor(Color.BLACK);
        pen.fill(new Ellipse2D.Double(x + towards * length * 0.3 - 3, y - 6, 6, 6));
    }

    /** A thin brown film on sand and panes. */
    private void film() {
        pen.setColor(FILM);
        pen.fillRect(0, SAND - 20, WIDTH, HEIGHT - SAND + 20);
        for (int count = 0; count < 160; count++) {
            double size = 20 + random.nextInt(90);
            pen.fill(new Ellipse2D.Double(
                    random.nextInt(WIDTH) - size / 2, SAND - random.nextInt(240), size, size * 0.5));
        }
    }

    private void frame() {
        pen.setColor(new Color(28, 30, 34));
        pen.fillRect(0, 0, WIDTH, PANE_TOP - 26);
        pen.fillRect(0, HEIGHT - 24, WIDTH, 24);
        pen.fillRect(0, 0, 18, HEIGHT);
        pen.fillRect(WIDTH - 18, 0, 18, HEIGHT);
        pen.setColor(new Color(255, 255, 255, 120));
        pen.fillRect(18, PANE_TOP - 4, WIDTH - 36, 4);
    }
}
