package app.tankround.reports;

/** The cuts of type in use, with the file of each and the fallback of like weight. */
enum Face {
    TEXT("AtkinsonHyperlegibleNext_400Regular.ttf", "NotoSans_400Regular.ttf"),
    STRONG("AtkinsonHyperlegibleNext_600SemiBold.ttf", "NotoSans_600SemiBold.ttf"),
    HEAVY("AtkinsonHyperlegibleNext_700Bold.ttf", "NotoSans_600SemiBold.ttf"),
    VOICE("SourceSerif4_400Regular.ttf", "NotoSans_400Regular.ttf"),
    VOICE_STRONG("SourceSerif4_600SemiBold.ttf", "NotoSans_600SemiBold.ttf");

    final String file;
    final String fallback;

    Face(String file, String fallback) {
        this.file = file;
        this.fallback = fallback;
    }
}
