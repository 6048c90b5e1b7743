namespace Athwart.Metering.Events;

/// <summary>Steps over which something stands out of the floor; edges with halves.</summary>
/// <param name="From">The first step.</param>
/// <param name="To">The step after the last.</param>
internal readonly record struct Stretch(double From, double To)
{
    public double Length => To - From;
}
