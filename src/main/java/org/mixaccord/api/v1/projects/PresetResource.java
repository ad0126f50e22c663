package org.mixaccord.api.v1.projects;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Caller;
import org.mixaccord.measure.DeliveryPreset;

/** Figures for delivery that somebody has written down, to begin an agreement from. */
@Path("/api/v1")
public class PresetResource {
  /** A preset. */
  public record PresetView(String id, String name, String words, List<FigureView> figures) {
    static PresetView of(DeliveryPreset preset) {
      return new PresetView(
          preset.id(),
          preset.name(),
          preset.words(),
          preset.figures().stream().map(FigureView::of).toList());
    }
  }

  /** One figure: its field in the delivery spec, and what stands behind it. */
  public record FigureView(
      String field,
      double value,
      String source,
      Optional<String> date,
      String standing,
      String note) {
    static FigureView of(DeliveryPreset.Figure figure) {
      return new FigureView(
          figure.field(),
          figure.value(),
          figure.source(),
          figure.date(),
          figure.standing().wire(),
          figure.note());
    }
  }

  private final Caller caller;

  PresetResource(Caller caller) {
    this.caller = caller;
  }

  @GET
  @Path("/delivery-presets")
  public List<PresetView> all() {
    caller.required();
    return DeliveryPreset.all().stream().map(PresetView::of).toList();
  }
}
