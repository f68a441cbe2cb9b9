-- Which assessment of a reading is the newest. In a table of its own: to say in each row of assessment whether it is the
-- newest meant to write its whole row anew when another one came, and a condemned instrument brings tens of thousands.
create table newest_assessment (
    reading_id        uuid        primary key references reading (id),
    assessment_id     bigint      not null
) with (fillfactor = 50);
insert into newest_assessment (reading_id, assessment_id) select reading_id, id from assessment where latest;
alter table assessment drop column latest;

-- Lines are only made from the readings of a list, by one statement, and neither is ever deleted: checking each of tens of
-- thousands once more guards nothing.
alter table doubt_line
    drop constraint doubt_line_list_id_fkey,
    drop constraint doubt_line_reading_id_fkey;
