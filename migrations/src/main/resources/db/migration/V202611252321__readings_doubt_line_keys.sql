-- A condemned instrument brings tens of thousands of lines at once. Assessments are never deleted and lines are only made
-- from them, so that two foreign keys and their indexes guard nothing; the other indexes take up only the lines that they
-- are about.
alter table doubt_line
    drop constraint doubt_line_before_id_fkey,
    drop constraint doubt_line_after_id_fkey,
    drop constraint doubt_line_list_id_decision_id_key;
drop index doubt_line_before_id;
drop index doubt_line_after_id;
drop index doubt_line_decision_id;
drop index doubt_line_again_id;
drop index doubt_line_ended_by;
create unique index doubt_line_decision on doubt_line (list_id, decision_id) where decision_id is not null;
create index doubt_line_decision_id on doubt_line (decision_id) where decision_id is not null;
create index doubt_line_again_id on doubt_line (again_id) where again_id is not null;
create index doubt_line_ended_by on doubt_line (ended_by) where ended_by is not null;

-- Finds the newest assessment that held before a doubt without sorting.
drop index assessment_reading_id;
create index assessment_reading_id on assessment (reading_id, id);
-- Doubtful ones are found by their instrument.
drop index assessment_doubtful;
