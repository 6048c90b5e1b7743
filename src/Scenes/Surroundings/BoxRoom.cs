namespace Athwart.Scenes.Surroundings;

/// <summary>A rectangular room by mirror images up to a number of reflections.</summary>
/// <param name="Corner">The corner with the smallest coordinates: right, rear, floor.</param>
/// <param name="Opposite">The corner with the largest coordinates.</param>
/// <param name="Absorption">The part of the power each surface takes: rear, front, right, left, floor, ceiling; 0 to 1.</param>
/// <param name="Order">The most reflections, 0 to 12.</param>
/// <remarks>Source: J. B. Allen and D. A. Berkley, Image method for efficiently simulating small-room acoustics, 1979, from memory; the first order is tested against mirrored geometry.</remarks>
public sealed record BoxRoom(Place Corner, Place Opposite, IReadOnlyList<double> Absorption, int Order = 2) : Reflectors
{
    /// <inheritdoc/>
    internal override IEnumerable<MirrorImage> Images()
    {
        if (Absorption.Count != 6)
            throw new InvalidOperationException($"A room has six surfaces; absorptions given: {Absorption.Count}.");
        var x = Axis(Corner.X, Opposite.X, Absorption[0], Absorption[1]);
        var y = Axis(Corner.Y, Opposite.Y, Absorption[2], Absorption[3]);
        var z = Axis(Corner.Z, Opposite.Z, Absorption[4], Absorption[5]);
        return
        [
            .. from a in x
               from b in y
               from c in z
               where a.Order + b.Order + c.Order <= Order
               orderby a.Order + b.Order + c.Order
               select new MirrorImage(new(a.Turn, b.Turn, c.Turn), new(a.Move, b.Move, c.Move), a.Gain * b.Gain * c.Gain, a.Order + b.Order + c.Order),
        ];
    }

    private List<AxisImage> Axis(double low, double high, double lowAbsorption, double highAbsorption)
    {
        var (length, images) = (high - low, new List<AxisImage>());
        for (var n = -Order; n <= Order; n++)
        {
            for (var mirrored = 0; mirrored <= 1; mirrored++)
            {
                var (atLow, atHigh) = (Math.Abs(n - mirrored), Math.Abs(n));
                var gain = Math.Pow(Factor(lowAbsorption), atLow) * Math.Pow(Factor(highAbsorption), atHigh);
                images.Add(mirrored == 0
                    ? new(1, 2 * n * length, gain, atLow + atHigh)
                    : new(-1, (2 * n * length) + (2 * low), gain, atLow + atHigh));
            }
        }

        return images;
    }

    private readonly record struct AxisImage(double Turn, double Move, double Gain, int Order);
}
