CREATE TABLE `containment` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`alarm_id` integer NOT NULL,
	`event_id` integer NOT NULL,
	`piece_id` integer NOT NULL,
	`decision` text NOT NULL,
	FOREIGN KEY (`alarm_id`) REFERENCES `alarm`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`event_id`) REFERENCES `alarm_event`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`piece_id`) REFERENCES `piece`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `containment_by_alarm` ON `containment` (`alarm_id`);--> statement-breakpoint
CREATE INDEX `containment_by_piece` ON `containment` (`piece_id`);--> statement-breakpoint
CREATE TABLE `handover` (
	`id` integer PRIMARY KEY NOT NULL,
	`shift` text NOT NULL,
	`shift_from` integer NOT NULL,
	`shift_to` integer NOT NULL,
	`covers_from` integer NOT NULL,
	`remarks` text NOT NULL,
	`content` text NOT NULL,
	`signed_at` integer NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `handover_by_shift` ON `handover` (`shift_from`);--> statement-breakpoint
CREATE TABLE `reaction_plan` (
	`id` integer PRIMARY KEY NOT NULL,
	`part_id` integer,
	`feature_id` integer,
	`version` integer NOT NULL,
	`steps` text NOT NULL,
	`verify_subgroups` integer NOT NULL,
	`reason` text DEFAULT '' NOT NULL,
	`written_at` integer NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`part_id`) REFERENCES `part`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`feature_id`) REFERENCES `feature`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `reaction_plan_by_feature` ON `reaction_plan` (`feature_id`);--> statement-breakpoint
CREATE INDEX `reaction_plan_by_part` ON `reaction_plan` (`part_id`);--> statement-breakpoint
ALTER TABLE `alarm` ADD `acknowledged_at` integer;--> statement-breakpoint
ALTER TABLE `alarm` ADD `shelved_until` integer;--> statement-breakpoint
ALTER TABLE `alarm` ADD `closed_at` integer;--> statement-breakpoint
ALTER TABLE `alarm` ADD `reaction_plan_id` integer REFERENCES reaction_plan(id);--> statement-breakpoint
ALTER TABLE `alarm` ADD `origin` text;--> statement-breakpoint
ALTER TABLE `alarm_event` ADD `detail` text;--> statement-breakpoint
CREATE INDEX `alarm_event_in_time` ON `alarm_event` (`at`);
--> statement-breakpoint
UPDATE `alarm` SET `acknowledged_at` = (SELECT min(`at`) FROM `alarm_event` WHERE `alarm_id` = `alarm`.`id` AND `kind` IN ('acknowledged', 'closed')) WHERE `state` IN ('acknowledged', 'returned', 'closed');--> statement-breakpoint
UPDATE `alarm` SET `closed_at` = (SELECT max(`at`) FROM `alarm_event` WHERE `alarm_id` = `alarm`.`id` AND `kind` = 'closed') WHERE `state` = 'closed';--> statement-breakpoint
CREATE TRIGGER `alarm_event_stays` BEFORE UPDATE ON `alarm_event` BEGIN SELECT raise(ABORT, 'alarm_event is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `alarm_event_is_kept` BEFORE DELETE ON `alarm_event` BEGIN SELECT raise(ABORT, 'alarm_event is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `containment_stays` BEFORE UPDATE ON `containment` BEGIN SELECT raise(ABORT, 'containment is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `containment_is_kept` BEFORE DELETE ON `containment` BEGIN SELECT raise(ABORT, 'containment is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `handover_stays` BEFORE UPDATE ON `handover` BEGIN SELECT raise(ABORT, 'a signed handover is frozen'); END;--> statement-breakpoint
CREATE TRIGGER `handover_is_kept` BEFORE DELETE ON `handover` BEGIN SELECT raise(ABORT, 'a signed handover is frozen'); END;
