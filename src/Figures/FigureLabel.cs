using Athwart.Quantities;

namespace Athwart.Figures;

/// <summary>What a figure is called by those who cannot see it.</summary>
/// <param name="Id">Begins every id inside the figure; unique on the page; letters, digits and hyphens.</param>
/// <param name="Title">What the figure shows, in a few words.</param>
/// <param name="Description">What it says, in a sentence or two, with numbers.</param>
public sealed record FigureLabel(string Id, string Title, string Description);

/// <summary>A stretch of time that a finding names.</summary>
/// <param name="Number">Its number in the list of findings.</param>
/// <param name="Severity">How much it matters; decides the shape of the mark.</param>
/// <param name="FromSeconds">Where it starts.</param>
/// <param name="ToSeconds">Where it ends; equal to the start for a moment.</param>
/// <param name="Role">The role it concerns, which alone is tinted; null tints every lane.</param>
public sealed record TimeMark(int Number, FindingSeverity Severity, double FromSeconds, double ToSeconds, ChannelRole? Role = null);
