package app.tankround.reports;

import app.tankround.reports.UnreadablePictureException.Reason;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import net.coobird.thumbnailator.Thumbnails;
import org.openpdf.text.Image;

/** Opens pictures: upright, in RGB on white, no larger than paper can show, without metadata. */
final class Pictures {

    /** Largest picture that is opened, in pixels: what fits into the memory of a small server. */
    static final long MAX_PIXELS = 60_000_000;

    /** Longest side kept, in pixels: 180 mm, the width between the margins, at about 200 dots an inch. */
    private static final int MAX_SIDE = 1400;

    private static final float JPEG_QUALITY = 0.86f;

    private Pictures() {}

    /** @throws UnreadablePictureException if the picture cannot be opened */
    static Image open(Picture picture) {
        try {
            BufferedImage upright = Thumbnails.of(new ByteArrayInputStream(picture.bytes()))
                    .scale(scale(picture))
                    .useExifOrientation(true)
                    .imageType(BufferedImage.TYPE_INT_ARGB)
                    .asBufferedImage();
            return Image.getInstance(toJpeg(upright));
        } catch (IOException | RuntimeException e) {
            if (e instanceof UnreadablePictureException refused) {
                throw refused;
            }
            throw new UnreadablePictureException(Reason.DAMAGED, picture.alternativeText(), e);
        }
    }

    private static double scale(Picture picture) throws IOException {
        try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(picture.bytes()))) {
            Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
            if (!readers.hasNext()) {
                throw new UnreadablePictureException(Reason.NOT_JPEG_OR_PNG, picture.alternativeText(), null);
            }
            ImageReader reader = readers.next();
            try {
                String format = reader.getFormatName();
                if (!"jpeg".equalsIgnoreCase(format) && !"png".equalsIgnoreCase(format)) {
                    throw new UnreadablePictureException(Reason.NOT_JPEG_OR_PNG, picture.alternativeText(), null);
                }
                reader.setInput(in);
                int width = reader.getWidth(0);
                int height = reader.getHeight(0);
                if ((long) width * height > MAX_PIXELS) {
                    throw new UnreadablePictureException(Reason.TOO_LARGE, picture.alternativeText(), null);
                }
                return Math.min(1.0, (double) MAX_SIDE / Math.max(width, height));
            } finally {
                reader.dispose();
            }
        }
    }

    private static byte[] toJpeg(BufferedImage image) throws IOException {
        var onWhite = new BufferedImage(image.getWidth(), image.getHeight(), BufferedImage.TYPE_INT_RGB);
        Graphics2D graphics = onWhite.createGraphics();
        graphics.drawImage(image, 0, 0, Color.WHITE, null);
        graphics.dispose();
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        var bytes = new ByteArrayOutputStream();
        try (var out = new MemoryCacheImageOutputStream(bytes)) {
            ImageWriteParam options = writer.getDefaultWriteParam();
            options.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            options.setCompressionQuality(JPEG_QUALITY);
            writer.setOutput(out);
            writer.write(null, new IIOImage(onWhite, null, null), options);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }
}
