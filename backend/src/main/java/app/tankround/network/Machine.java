package app.tankround.network;

/** The machine on its network, as it is at this moment. */
interface Machine {

    MachineNames names();
}
