package app.tankround.tablet;

import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.documents.StoredFile;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import net.coobird.thumbnailator.Thumbnails;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Takes photos in: real JPEG and PNG only, turned upright, and drawn anew so that nothing else that was in the file, such
 * as the place where it was taken, is kept.
 */
@Service
public class Photos {

    /** The most a photo may have, in bytes. */
    public static final int MOST_BYTES = 15 * 1024 * 1024;

    /** Longer edge that is kept, in pixels: prints well across a page. */
    private static final int EDGE = 2048;
    /** A small file can unfold into a picture that fills the memory. */
    private static final long MOST_PIXELS = 60_000_000;

    /** Longer edge of what a tablet takes along, in pixels, and the most bytes that it should have. */
    private static final int SMALL_EDGE = 320;

    private static final int SMALL_BYTES = 20_000;
    private static final double[] SMALL_QUALITIES = {0.75, 0.5, 0.25};

    private final FileStore files;
    private final JdbcClient jdbc;

    Photos(FileStore files, JdbcClient jdbc) {
        this.files = files;
        this.jdbc = jdbc;
    }

    /**
     * A photo as a JPEG of 320 pixels at its longer edge, or of fewer where it has fewer. It is made once and kept; the more
     * there is in a picture, the coarser it gets.
     *
     * @throws NotFound if there is no such file
     * @throws FieldRefusal if the file is no picture
     */
    @Transactional
    public byte[] small(FileId id) {
        return jdbc.sql("select content from small_photo where file_id = :id")
                .param("id", id.value())
                .query(byte[].class)
                .optional()
                .orElseGet(() -> {
                    byte[] made = madeSmall(files.require(id));
                    jdbc.sql("insert into small_photo (file_id, content) values (:id, :content) on conflict do nothing")
                            .param("id", id.value())
                            .param("content", made)
                            .update();
                    return made;
                });
    }

    private static byte[] madeSmall(StoredFile file) {
        if (!file.mediaType().startsWith("image/")) {
            throw new FieldRefusal("photo", "tablet.photo-not-an-image");
        }
        try {
            BufferedImage whole = Thumbnails.of(new ByteArrayInputStream(file.content()))
                    .scale(1)
                    .asBufferedImage();
            boolean larger = Math.max(whole.getWidth(), whole.getHeight()) > SMALL_EDGE;
            BufferedImage small =
                    larger ? Thumbnails.of(whole).size(SMALL_EDGE, SMALL_EDGE).asBufferedImage() : whole;
            ByteArrayOutputStream drawn = new ByteArrayOutputStream();
            for (double quality : SMALL_QUALITIES) {
                drawn.reset();
                Thumbnails.of(small)
                        .scale(1)
                        .outputFormat("jpg")
                        .outputQuality(quality)
                        .toOutputStream(drawn);
                if (drawn.size() <= SMALL_BYTES) {
                    break;
                }
            }
            return drawn.toByteArray();
        } catch (IOException broken) {
            throw new FieldRefusal("photo", "tablet.photo-broken");
        }
    }

    /**
     * Stores a photo under its id. Sent again, it stays as it is.
     *
     * @throws FieldRefusal if it is no JPEG or PNG, broken, or has more than 60 million pixels
     */
    public void store(FileId id, byte[] content) {
        if (files.exists(id)) {
            return;
        }
        String format = format(content).orElseThrow(() -> new FieldRefusal("photo", "tablet.photo-not-an-image"));
        refuseIfTooLarge(content);
        ByteArrayOutputStream drawn = new ByteArrayOutputStream();
        try {
            BufferedImage upright = Thumbnails.of(new ByteArrayInputStream(content))
                    .useExifOrientation(true)
                    .scale(1)
                    .asBufferedImage();
            boolean larger = Math.max(upright.getWidth(), upright.getHeight()) > EDGE;
            Thumbnails.Builder<BufferedImage> result = Thumbnails.of(upright);
            (larger ? result.size(EDGE, EDGE) : result.scale(1))
                    .outputFormat(format)
                    .outputQuality(0.85)
                    .toOutputStream(drawn);
        } catch (IOException | RuntimeException broken) {
            throw new FieldRefusal("photo", "tablet.photo-broken");
        }
        boolean png = format.equals("png");
        files.store(id, id + (png ? ".png" : ".jpg"), png ? "image/png" : "image/jpeg", drawn.toByteArray());
    }

    /** By the content, whatever the name or the header says. */
    private static Optional<String> format(byte[] content) {
        if (starts(content, 0xFF, 0xD8, 0xFF)) {
            return Optional.of("jpg");
        }
        return starts(content, 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n') ? Optional.of("png") : Optional.empty();
    }

    private static boolean starts(byte[] content, int... signature) {
        if (content.length < signature.length) {
            return false;
        }
        for (int i = 0; i < signature.length; i++) {
            if ((content[i] & 0xFF) != signature[i]) {
                return false;
            }
        }
        return true;
    }

    private static void refuseIfTooLarge(byte[] content) {
        try (ImageInputStream input = ImageIO.createImageInputStream(new ByteArrayInputStream(content))) {
            Iterator<ImageReader> readers = ImageIO.getImageReaders(input);
            if (!readers.hasNext()) {
                throw new FieldRefusal("photo", "tablet.photo-broken");
            }
            ImageReader reader = readers.next();
            try {
                reader.setInput(input);
                long pixels = (long) reader.getWidth(0) * reader.getHeight(0);
                if (pixels > MOST_PIXELS) {
                    throw new FieldRefusal("photo", "tablet.photo-too-many-pixels", pixels, 1, MOST_PIXELS);
                }
            } finally {
                reader.dispose();
            }
        } catch (IOException broken) {
            throw new FieldRefusal("photo", "tablet.photo-broken");
        }
    }
}
