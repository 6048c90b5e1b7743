namespace Athwart.Catalogue;

/// <summary>A cut that was proposed and not yet approved.</summary>
/// <param name="Take">The take.</param>
/// <param name="Position">Its place among the take's proposals, from 0.</param>
/// <param name="Version">The version of the JSON.</param>
/// <param name="Json">What was proposed, as the jobs write it.</param>
public sealed record StoredProposal(TakeId Take, int Position, int Version, string Json);
