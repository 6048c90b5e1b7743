using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Resampling;

/// <summary>The coefficients of a sample-rate conversion: one row for each place an output frame can have between two input frames.</summary>
/// <remarks>
/// A linear-phase low-pass filter: cardinal sine under a Kaiser window, its cutoff in the middle of the transition, the stop band
/// starting at the lower of the two Nyquist frequencies. Everything comes from <see cref="FixedMath"/>, so every machine has the same table.
/// </remarks>
internal sealed class PolyphaseTable
{
    // As parts of the lower Nyquist frequency. The window's formal transition is a little wider than the asked 0.9 to 1.0,
    // for the response is already within 0.01 dB well inside it; the tests measure what comes of it.
    private const double AttenuationDecibels = 134;
    private const double Transition = 0.112;
    private const double Cutoff = 1 - (Transition / 2);

    private PolyphaseTable(int phases, int advance, int reach, int pad, double[] coefficients)
    {
        Phases = phases;
        Advance = advance;
        Reach = reach;
        Pad = pad;
        RowLength = (2 * reach) + (2 * pad);
        Coefficients = coefficients;
    }

    /// <summary>L: how many rows; output frame n lies at input frame n·M/L.</summary>
    public int Phases { get; }

    /// <summary>M, in lowest terms with L.</summary>
    public int Advance { get; }

    /// <summary>A row spans the input frames from floor − Reach + 1 to floor + Reach.</summary>
    public int Reach { get; }

    /// <summary>Zeros before and after each row.</summary>
    public int Pad { get; }

    /// <summary>Coefficients from one row to the next, zeros included.</summary>
    public int RowLength { get; }

    /// <summary>All rows, one after the other.</summary>
    public double[] Coefficients { get; }

    /// <summary>The table for two rates in hertz.</summary>
    /// <param name="fromHertz">The rate of the input.</param>
    /// <param name="toHertz">The rate of the output.</param>
    /// <param name="groupSize">How many outputs a kernel computes over one common stretch of input; decides the zeros around each row.</param>
    public static PolyphaseTable Design(int fromHertz, int toHertz, int groupSize)
    {
        var divisor = GreatestCommonDivisor(fromHertz, toHertz);
        int phases = toHertz / divisor, advance = fromHertz / divisor;
        // The lower rate, as a part of the input rate.
        var lower = Math.Min(1.0, (double)toHertz / fromHertz);
        var halfLength = KaiserWindow.Length(AttenuationDecibels, Transition / 2) / 2 / lower;
        var reach = (int)Math.Ceiling(halfLength);
        var pad = (int)((long)groupSize * advance / phases) + 8;
        var table = new PolyphaseTable(phases, advance, reach, pad, new double[phases * ((2 * reach) + (2 * pad))]);
        for (var phase = 0; phase < phases; phase++)
            table.FillRow(phase, lower * Cutoff, halfLength);
        return table;
    }

    private void FillRow(int phase, double cutoff, double halfLength)
    {
        var row = Coefficients.AsSpan((phase * RowLength) + Pad, 2 * Reach);
        var beta = KaiserWindow.Beta(AttenuationDecibels);
        for (var tap = 0; tap < row.Length; tap++)
        {
            // Distance in input frames between this tap and the output frame, from whole numbers so that rows mirror each other.
            var place = ((double)((tap - Reach + 1) * (long)Phases) - phase) / Phases;
            row[tap] = cutoff * FixedTrigonometry.Sinc(cutoff * place) * KaiserWindow.At(place / halfLength, beta);
        }
    }

    private static int GreatestCommonDivisor(int a, int b) => b == 0 ? a : GreatestCommonDivisor(b, a % b);
}
