package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;

/** A task of a visit that is still to be made. */
public record DueTask(WaterSystemId system, LocalDate dueOn, TaskView task) {}
