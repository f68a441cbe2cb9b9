package app.tankround.reports;

/** The words at the foot of a page, such as {@code Page 1 of 2}, in the language of the document. */
@FunctionalInterface
public interface PageLabel {

    /**
     * @param page number of this page, from 1
     * @param pages number of pages in the document, at least {@code page}
     */
    String of(int page, int pages);
}
