package org.mixaccord.accounts;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.AttributeConverter;
import jakarta.persistence.Column;
import jakarta.persistence.Convert;
import jakarta.persistence.Converter;
import jakarta.persistence.Embedded;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Instant;

/** A single, EP or album and its people. */
@Entity
public class Project extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;
  private String title;
  private String artist;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "created_by")
  private Person createdBy;

  @Column(name = "created_at")
  private Instant createdAt;

  @Column(name = "gather_notes")
  private boolean gatherNotes;

  private boolean downloads;

  @Column(name = "meters_open")
  private boolean metersOpen = true;

  @Column(name = "approval_stays")
  @Convert(converter = StaysConverter.class)
  private ApprovalStays approvalStays = ApprovalStays.IDENTICAL;

  @Embedded private DeliverySpec spec;

  protected Project() {}

  /** A new project with nobody in it. */
  public static Project begin(String title, String artist, Person creator, Instant now) {
    Project project = new Project();
    project.id = Ids.fresh();
    project.title = Texts.line("title", title, 200);
    project.artist = Texts.line("artist", artist, 200);
    project.createdBy = creator;
    project.createdAt = now;
    project.persist();
    return project;
  }

  public void rename(String newTitle, String newArtist) {
    if (newTitle != null) {
      title = Texts.line("title", newTitle, 200);
    }
    if (newArtist != null) {
      artist = Texts.line("artist", newArtist, 200);
    }
  }

  /** Sets the switches that are given; null leaves one as it is. */
  public void switchTo(Boolean gather, Boolean download, Boolean meters, ApprovalStays stays) {
    gatherNotes = gather == null ? gatherNotes : gather;
    downloads = download == null ? downloads : download;
    metersOpen = meters == null ? metersOpen : meters;
    approvalStays = stays == null ? approvalStays : stays;
  }

  public void agreeOn(DeliverySpec newSpec) {
    spec = newSpec;
  }

  public String id() {
    return id;
  }

  public String title() {
    return title;
  }

  public String artist() {
    return artist;
  }

  public Person createdBy() {
    return createdBy;
  }

  public Instant createdAt() {
    return createdAt;
  }

  public boolean gatherNotes() {
    return gatherNotes;
  }

  public boolean downloads() {
    return downloads;
  }

  public boolean metersOpen() {
    return metersOpen;
  }

  public ApprovalStays approvalStays() {
    return approvalStays;
  }

  /** What was agreed on; every field null when nothing was. */
  public DeliverySpec spec() {
    return spec == null ? new DeliverySpec(null, null, null, null, null, null, null) : spec;
  }

  @Converter
  static class StaysConverter implements AttributeConverter<ApprovalStays, String> {
    @Override
    public String convertToDatabaseColumn(ApprovalStays value) {
      return value.wire();
    }

    @Override
    public ApprovalStays convertToEntityAttribute(String column) {
      return ApprovalStays.of(column);
    }
  }
}
