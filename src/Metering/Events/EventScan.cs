using Athwart.Quantities;

namespace Athwart.Metering.Events;

/// <summary>What a take holds.</summary>
/// <param name="Events">The sounds that stand out, in order; they do not overlap.</param>
/// <param name="OverFloor">How far the power of the take as a whole lies over that of its floor, above 150 Hz: about 0 dB for what is all background, and for silence.</param>
public sealed record EventScan(IReadOnlyList<FoundEvent> Events, Decibels OverFloor);
