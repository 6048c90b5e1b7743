namespace Athwart.Metering;

/// <summary>How the samples of a take were stored: integers of so many bits, or floating point.</summary>
/// <remarks>
/// The meters read floats where full scale is ±1; the scale says where integer samples stop and how large one step is,
/// so that full-scale runs are told from floating-point overs. <c>default</c> is floating point.
/// </remarks>
/// <param name="IntegerBits">Valid bits of an integer sample, 2 to 32; 0 for floating point.</param>
public readonly record struct SampleScale(int IntegerBits)
{
    /// <summary>Floating-point samples: no step, no ceiling.</summary>
    public static SampleScale FloatingPoint => default;

    /// <summary>Integer samples of so many valid bits.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 2 to 32 bits.</exception>
    public static SampleScale OfBits(int bits)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(bits, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(bits, 32);
        return new(bits);
    }

    /// <summary>Whether samples are integers.</summary>
    public bool IsInteger => IntegerBits > 0;

    /// <summary>One step of the integer scale as a share of full scale; 0 for floating point.</summary>
    public double Step => IsInteger ? Math.ScaleB(1, 1 - IntegerBits) : 0;

    /// <summary>
    /// The magnitude from which an integer sample counts as full scale: the largest positive value, 1 − one step, in either
    /// polarity, because many converters clip symmetrically; +∞ for floating point.
    /// </summary>
    public double FullScaleMagnitude => IsInteger ? 1 - Step : double.PositiveInfinity;
}
