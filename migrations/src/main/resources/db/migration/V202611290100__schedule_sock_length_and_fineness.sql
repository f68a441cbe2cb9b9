-- How long a sock is to be, and what may still pass through it; where nothing is stated any will do.
alter table agreement_task add column length_mm integer check (length_mm between 10 and 3000);
alter table agreement_task add column fineness_um integer check (fineness_um between 1 and 2000);
