package app.tankround.reports;

import java.util.ArrayList;
import java.util.List;

/** Spreads strips over pages of one height. */
final class Paginator {

    private final float height;
    private final List<List<Strip>> pages = new ArrayList<>();
    private List<Strip> page = new ArrayList<>();
    private float used;

    private Paginator(float height) {
        this.height = height;
    }

    /** At least one page. Strips that keep together move on together if they fit on one page. */
    static List<List<Strip>> paginate(List<Strip> strips, float height) {
        var paginator = new Paginator(height);
        for (int i = 0; i < strips.size(); ) {
            int end = i + 1;
            float together = strips.get(i).height();
            while (end < strips.size() && strips.get(end - 1).keepWithNext()) {
                together += strips.get(end).height();
                end++;
            }
            if (paginator.used + together > height && together <= height) {
                paginator.turn();
            }
            for (; i < end; i++) {
                paginator.place(strips.get(i));
            }
        }
        paginator.pages.add(paginator.page);
        return paginator.pages;
    }

    private void place(Strip strip) {
        if (used + strip.height() > height) {
            turn();
        }
        if (page.isEmpty()) {
            if (strip.gap()) {
                return;
            }
            Strip header = strip.repeat();
            if (header != null) {
                add(header);
            }
        }
        add(strip);
    }

    private void add(Strip strip) {
        page.add(strip);
        used += strip.height();
    }

    private void turn() {
        if (!page.isEmpty()) {
            pages.add(page);
            page = new ArrayList<>();
            used = 0;
        }
    }
}
