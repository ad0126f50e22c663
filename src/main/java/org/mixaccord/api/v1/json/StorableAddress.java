package org.mixaccord.api.v1.json;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.core.UriInfo;
import jakarta.ws.rs.ext.Provider;
import org.mixaccord.accounts.Texts;

/** Refuses text that cannot be stored in an address, before anything is looked up by it. */
@Provider
public class StorableAddress implements ContainerRequestFilter {
  @Override
  public void filter(ContainerRequestContext request) {
    UriInfo address = request.getUriInfo();
    address.getPathParameters().values().forEach(v -> v.forEach(Texts::checkStorable));
    address.getQueryParameters().values().forEach(v -> v.forEach(Texts::checkStorable));
  }
}
