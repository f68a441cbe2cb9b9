package app.tankround.schedule;

import java.util.List;

/** A part of the program that knows of work beside the agreed visits, and of its end. */
public interface WorkSource {

    /** What waits now. What is not named any more is settled, and its proposal is withdrawn. */
    List<WorkProposal> waiting();
}
