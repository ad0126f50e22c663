/**
 * The change list as a file to take along: a table, a printed sheet, markers for a workstation, and
 * the answer to the band.
 */
package org.mixaccord.worksheet;
