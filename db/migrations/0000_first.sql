CREATE TABLE `account` (
	`id` integer PRIMARY KEY NOT NULL,
	`login` text NOT NULL,
	`name` text NOT NULL,
	`password_hash` text NOT NULL,
	`roles` text NOT NULL,
	`demo` integer DEFAULT false NOT NULL,
	`created_at` integer NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `account_login_unique` ON `account` (`login`);--> statement-breakpoint
CREATE TABLE `alarm` (
	`id` integer PRIMARY KEY NOT NULL,
	`feature_id` integer NOT NULL,
	`first_at` real NOT NULL,
	`latest_at` real NOT NULL,
	`state` text NOT NULL,
	`words` text NOT NULL,
	`raised_at` integer NOT NULL,
	`returned_at` integer,
	`withdrawn_at` integer,
	FOREIGN KEY (`feature_id`) REFERENCES `feature`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `alarm_by_feature` ON `alarm` (`feature_id`,`first_at`);--> statement-breakpoint
CREATE INDEX `alarm_by_state` ON `alarm` (`state`);--> statement-breakpoint
CREATE TABLE `alarm_event` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`alarm_id` integer NOT NULL,
	`at` integer NOT NULL,
	`kind` text NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`alarm_id`) REFERENCES `alarm`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `alarm_event_by_alarm` ON `alarm_event` (`alarm_id`);--> statement-breakpoint
CREATE TABLE `audit` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` integer NOT NULL,
	`account_id` integer,
	`action` text NOT NULL,
	`subject` text NOT NULL,
	`before` text,
	`after` text,
	`reason` text DEFAULT '' NOT NULL,
	`digest` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `cause` (
	`id` integer PRIMARY KEY NOT NULL,
	`text` text NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `cause_text_unique` ON `cause` (`text`);--> statement-breakpoint
CREATE TABLE `correction` (
	`id` integer PRIMARY KEY NOT NULL,
	`feature_id` integer NOT NULL,
	`taken_at` real NOT NULL,
	`piece_id` integer NOT NULL,
	`old_value` real NOT NULL,
	`old_intake_id` integer NOT NULL,
	`new_value` real NOT NULL,
	`new_intake_id` integer NOT NULL,
	`at` integer NOT NULL,
	`undone_at` integer
);
--> statement-breakpoint
CREATE INDEX `correction_by_feature` ON `correction` (`feature_id`,`taken_at`);--> statement-breakpoint
CREATE INDEX `correction_by_intake` ON `correction` (`new_intake_id`);--> statement-breakpoint
CREATE TABLE `exclusion` (
	`id` integer PRIMARY KEY NOT NULL,
	`feature_id` integer NOT NULL,
	`from_at` integer NOT NULL,
	`to_at` integer NOT NULL,
	`cause` text NOT NULL,
	`created_at` integer NOT NULL,
	`account_id` integer,
	`withdrawn_at` integer,
	FOREIGN KEY (`feature_id`) REFERENCES `feature`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `exclusion_by_feature` ON `exclusion` (`feature_id`);--> statement-breakpoint
CREATE TABLE `feature` (
	`id` integer PRIMARY KEY NOT NULL,
	`part_id` integer NOT NULL,
	`name` text NOT NULL,
	`kind` text NOT NULL,
	`nominal` real,
	`lower_tolerance` real,
	`upper_tolerance` real,
	`natural_bound` real,
	`target` real,
	`unit` text NOT NULL,
	`resolution` real,
	`key_characteristic` integer DEFAULT false NOT NULL,
	`subgroup_size` integer NOT NULL,
	`chart` text NOT NULL,
	`rules` text NOT NULL,
	`length` real,
	`expansion` real,
	`reduced` integer DEFAULT false NOT NULL,
	FOREIGN KEY (`part_id`) REFERENCES `part`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `feature_by_name` ON `feature` (`part_id`,`name`);--> statement-breakpoint
CREATE TABLE `feature_state` (
	`feature_id` integer PRIMARY KEY NOT NULL,
	`last_at` real,
	`progress` text NOT NULL,
	`summary` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `intake` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`file` text NOT NULL,
	`digest` text NOT NULL,
	`kind` text NOT NULL,
	`mapping_name` text DEFAULT '' NOT NULL,
	`state` text NOT NULL,
	`accepted` integer DEFAULT 0 NOT NULL,
	`refused` integer DEFAULT 0 NOT NULL,
	`duplicates` integer DEFAULT 0 NOT NULL,
	`corrections` integer DEFAULT 0 NOT NULL,
	`late` integer DEFAULT 0 NOT NULL,
	`signals` integer DEFAULT 0 NOT NULL,
	`alarms` integer DEFAULT 0 NOT NULL,
	`notices` text NOT NULL,
	`message` text DEFAULT '' NOT NULL,
	`started_at` integer NOT NULL,
	`ended_at` integer,
	`undone_at` integer,
	`account_id` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `intake_by_digest` ON `intake` (`digest`);--> statement-breakpoint
CREATE TABLE `intake_feature` (
	`intake_id` integer NOT NULL,
	`feature_id` integer NOT NULL,
	`rows` integer NOT NULL,
	PRIMARY KEY(`intake_id`, `feature_id`)
);
--> statement-breakpoint
CREATE TABLE `limits` (
	`id` integer PRIMARY KEY NOT NULL,
	`feature_id` integer NOT NULL,
	`version` integer NOT NULL,
	`effective_from` integer NOT NULL,
	`chart` text NOT NULL,
	`centre` real NOT NULL,
	`sigma` real NOT NULL,
	`estimator` text NOT NULL,
	`baseline_from` integer NOT NULL,
	`baseline_to` integer NOT NULL,
	`baseline_subgroups` integer NOT NULL,
	`reason` text NOT NULL,
	`frozen_at` integer NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`feature_id`) REFERENCES `feature`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `limits_by_version` ON `limits` (`feature_id`,`version`);--> statement-breakpoint
CREATE TABLE `lot` (
	`id` integer PRIMARY KEY NOT NULL,
	`code` text NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `lot_code_unique` ON `lot` (`code`);--> statement-breakpoint
CREATE TABLE `mapping` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`fingerprint` text NOT NULL,
	`definition` text NOT NULL,
	`updated_at` integer NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `mapping_name_unique` ON `mapping` (`name`);--> statement-breakpoint
CREATE TABLE `measurement_arrival` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`feature_id` integer NOT NULL,
	`taken_at` real NOT NULL,
	`value` real NOT NULL,
	`part_temp` real,
	`piece_id` integer NOT NULL,
	`lot_id` integer NOT NULL,
	`fixture_id` integer NOT NULL,
	`tool_id` integer NOT NULL,
	`machine_id` integer NOT NULL,
	`gauge_id` integer NOT NULL,
	`operator_id` integer NOT NULL,
	`setup_id` integer NOT NULL,
	`subgroup_id` integer NOT NULL,
	`intake_id` integer NOT NULL,
	`line` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `measurement_block` (
	`id` integer PRIMARY KEY NOT NULL,
	`feature_id` integer NOT NULL,
	`first_at` real NOT NULL,
	`first_intake` integer NOT NULL,
	`first_line` integer NOT NULL,
	`last_at` real NOT NULL,
	`count` integer NOT NULL,
	`data` blob NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `block_in_time` ON `measurement_block` (`feature_id`,`first_at`,`first_intake`,`first_line`);--> statement-breakpoint
CREATE TABLE `part` (
	`id` integer PRIMARY KEY NOT NULL,
	`number` text NOT NULL,
	`revision` text DEFAULT '' NOT NULL,
	`name` text DEFAULT '' NOT NULL,
	`line` text DEFAULT '' NOT NULL,
	`material` text DEFAULT '' NOT NULL,
	`expansion` real
);
--> statement-breakpoint
CREATE UNIQUE INDEX `part_by_number` ON `part` (`number`,`revision`);--> statement-breakpoint
CREATE TABLE `piece` (
	`id` integer PRIMARY KEY NOT NULL,
	`part_id` integer NOT NULL,
	`serial` text NOT NULL,
	FOREIGN KEY (`part_id`) REFERENCES `part`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `piece_by_serial` ON `piece` (`part_id`,`serial`);--> statement-breakpoint
CREATE TABLE `refusal` (
	`id` integer PRIMARY KEY NOT NULL,
	`intake_id` integer NOT NULL,
	`line` integer NOT NULL,
	`field` text NOT NULL,
	`reason` text NOT NULL,
	`raw` text NOT NULL,
	FOREIGN KEY (`intake_id`) REFERENCES `intake`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `refusal_by_intake` ON `refusal` (`intake_id`);--> statement-breakpoint
CREATE TABLE `session` (
	`token_digest` text PRIMARY KEY NOT NULL,
	`account_id` integer NOT NULL,
	`created_at` integer NOT NULL,
	`expires_at` integer NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `session_by_account` ON `session` (`account_id`);--> statement-breakpoint
CREATE TABLE `setting` (
	`key` text PRIMARY KEY NOT NULL,
	`value` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `signal` (
	`feature_id` integer NOT NULL,
	`chart` text NOT NULL,
	`at` integer NOT NULL,
	`rule` text NOT NULL,
	`direction` text NOT NULL,
	`at_time` real NOT NULL,
	`members` text NOT NULL,
	PRIMARY KEY(`feature_id`, `at`, `chart`, `rule`, `direction`)
);
--> statement-breakpoint
CREATE TABLE `source` (
	`id` integer PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`code` text NOT NULL,
	`notes` text DEFAULT '' NOT NULL,
	`retired` integer DEFAULT false NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `source_by_code` ON `source` (`kind`,`code`);--> statement-breakpoint
CREATE TABLE `source_event` (
	`id` integer PRIMARY KEY NOT NULL,
	`source_id` integer NOT NULL,
	`at` integer NOT NULL,
	`kind` text NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`source_id`) REFERENCES `source`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `source_event_in_time` ON `source_event` (`source_id`,`at`);--> statement-breakpoint
CREATE TABLE `subgroup_label` (
	`id` integer PRIMARY KEY NOT NULL,
	`label` text NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `subgroup_label_label_unique` ON `subgroup_label` (`label`);