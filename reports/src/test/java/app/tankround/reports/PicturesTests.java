package app.tankround.reports;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.reports.UnreadablePictureException.Reason;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.openpdf.text.Image;

class PicturesTests {

    /**
     * An Exif segment with one entry, orientation 6: turn by 90 degrees clockwise to see it upright (JEITA CP-3451, Exif
     * 2.32, 4.6.4).
     */
    private static final byte[] ORIENTATION_6 = {
        (byte) 0xFF,
        (byte) 0xE1,
        0,
        34,
        'E',
        'x',
        'i',
        'f',
        0,
        0,
        'M',
        'M',
        0,
        42,
        0,
        0,
        0,
        8,
        0,
        1,
        1,
        0x12,
        0,
        3,
        0,
        0,
        0,
        1,
        0,
        6,
        0,
        0,
        0,
        0,
        0,
        0
    };

    @Test
    void scalesALargePhotoDownInProportion() {
        Image image = Pictures.open(TestPictures.jpeg(4000, 3000, "large"));

        assertThat(image.getWidth()).isEqualTo(1400);
        assertThat(image.getHeight()).isEqualTo(1050);
    }

    @Test
    void leavesASmallPhotoAtItsSize() {
        Image image = Pictures.open(TestPictures.png(320, 200, "small"));

        assertThat(image.getWidth()).isEqualTo(320);
        assertThat(image.getHeight()).isEqualTo(200);
    }

    @Test
    void turnsAPhotoUprightAndLeavesItsMetadataOut() {
        byte[] jpeg = TestPictures.jpeg(400, 300, "turned").bytes();
        var turned = new ByteArrayOutputStream();
        turned.write(jpeg, 0, 2);
        turned.writeBytes(ORIENTATION_6);
        turned.write(jpeg, 2, jpeg.length - 2);

        Image image = Pictures.open(new Picture(turned.toByteArray(), "turned"));

        assertThat(image.getWidth()).isEqualTo(300);
        assertThat(image.getHeight()).isEqualTo(400);
        assertThat(new String(image.getOriginalData(), StandardCharsets.ISO_8859_1))
                .doesNotContain("Exif");
    }

    @Test
    void refusesWhatIsNoPicture() {
        refuses("not a picture".getBytes(StandardCharsets.UTF_8), Reason.NOT_JPEG_OR_PNG);
    }

    @Test
    void refusesOtherFormats() {
        var image = new BufferedImage(10, 10, BufferedImage.TYPE_INT_RGB);

        refuses(TestPictures.encode(image, "gif"), Reason.NOT_JPEG_OR_PNG);
    }

    @Test
    void refusesADamagedPng() {
        byte[] png = TestPictures.png(200, 200, "damaged").bytes();

        refuses(Arrays.copyOf(png, png.length / 2), Reason.DAMAGED);
    }

    @Test
    void refusesAJpegThatEndsAfterItsHeader() {
        byte[] jpeg = TestPictures.jpeg(200, 200, "damaged").bytes();

        refuses(Arrays.copyOf(jpeg, 60), Reason.DAMAGED);
    }

    @Test
    void refusesMorePixelsThanItCanHoldBeforeDecodingThem() {
        byte[] png = TestPictures.png(10, 10, "huge").bytes();
        // PNG (ISO/IEC 15948), 11.2.2: width and height are bytes 16 to 23, the check sum of the chunk follows at 29.
        png[16] = 0;
        png[17] = 1;
        png[20] = 0;
        png[21] = 1;
        var sum = new CRC32();
        sum.update(png, 12, 17);
        for (int i = 0; i < 4; i++) {
            png[29 + i] = (byte) (sum.getValue() >> (24 - 8 * i));
        }

        refuses(png, Reason.TOO_LARGE);
    }

    @Test
    void refusesAPictureWithoutBytesOrWords() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Picture(new byte[0], "nothing"));
        assertThatIllegalArgumentException().isThrownBy(() -> new Picture(new byte[] {1}, " "));
    }

    private static void refuses(byte[] bytes, Reason reason) {
        assertThatExceptionOfType(UnreadablePictureException.class)
                .isThrownBy(() -> Pictures.open(new Picture(bytes, "the sump")))
                .satisfies(refused -> {
                    assertThat(refused.reason()).isEqualTo(reason);
                    assertThat(refused.alternativeText()).isEqualTo("the sump");
                });
    }
}
