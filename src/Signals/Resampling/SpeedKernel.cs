using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Resampling;

/// <summary>The coefficients that read a recording at any place between its frames, at a given speed: rows for places a small step apart.</summary>
/// <remarks>
/// A cardinal sine under a Kaiser window, as <see cref="PolyphaseTable"/> has it, its cutoff in the middle of the transition from 0.9 to 1.0 of
/// the lower Nyquist frequency: the input's own, or, played faster, that of what comes out. The window is written once, 256 places to a
/// frame, and read between them by a polynomial of third order; a place between two rows mixes both in proportion, which with this many rows
/// errs by less than −140 dB. All from <see cref="FixedMath"/>: the same bits on every machine.
/// </remarks>
internal sealed class SpeedKernel
{
    private const double AttenuationDecibels = 134;
    private const double Transition = 0.112;
    private const double Cutoff = 1 - (Transition / 2);
    private const int RowsAtNormalSpeed = 4096;
    private const int Fine = 256;
    private static readonly double HalfLength = KaiserWindow.Length(AttenuationDecibels, Transition / 2) / 2;
    private static readonly Lazy<double[]> Shape = new(WriteShape);
    private static readonly Lazy<SpeedKernel> Whole = new(() => new(1.0));
    private readonly double[] _rows;

    // How many frames of the input the kernel's own frame takes: 1 or more.
    private SpeedKernel(double stretch)
    {
        Reach = (int)Math.Ceiling(HalfLength * stretch);
        RowLength = ((2 * Reach) + 3) & ~3;
        RowBits = 12;
        while (1 << (RowBits - 1) >= RowsAtNormalSpeed / stretch)
            RowBits--;
        _rows = new double[((1 << RowBits) + 1) * RowLength];
        for (var row = 0; row <= 1 << RowBits; row++)
            Fill(row, stretch);
    }

    /// <summary>The coefficients for a speed, input frames for each output frame; all speeds up to 1 have the same.</summary>
    public static SpeedKernel For(double speed) => speed <= 1 ? Whole.Value : new(speed);

    /// <summary>A row spans the input frames from floor − Reach + 1 to floor + Reach.</summary>
    public int Reach { get; }

    /// <summary>Coefficients of a row, a multiple of 4, zeros at the end included.</summary>
    public int RowLength { get; }

    /// <summary>There are 2^RowBits rows to a frame, and one more.</summary>
    public int RowBits { get; }

    /// <summary>All rows, one after the other; the last is the first one frame on.</summary>
    public ReadOnlySpan<double> Rows => _rows;

    private void Fill(int row, double stretch)
    {
        var coefficients = _rows.AsSpan(row * RowLength, 2 * Reach);
        var part = (double)row / (1 << RowBits);
        for (var tap = 0; tap < coefficients.Length; tap++)
            coefficients[tap] = At((tap - Reach + 1 - part) / stretch) / stretch;
    }

    // The kernel at a place in frames of the lower rate, from the four written places around it.
    private static double At(double place)
    {
        var shape = Shape.Value;
        var fine = Math.Abs(place) * Fine;
        var n = (int)fine;
        if (n >= shape.Length - 3)
            return 0;
        double t = fine - n, a = shape[n], b = shape[n + 1], c = shape[n + 2], d = shape[n + 3];
        // Lagrange through −1, 0, 1, 2.
        return (a * -t * (t - 1) * (t - 2) / 6) + (b * (t + 1) * (t - 1) * (t - 2) / 2) + (c * -t * (t + 1) * (t - 2) / 2) + (d * t * (t + 1) * (t - 1) / 6);
    }

    // One half, from one place before its middle on: the other mirrors it.
    private static double[] WriteShape()
    {
        var shape = new double[(int)Math.Ceiling(HalfLength * Fine) + 4];
        var beta = KaiserWindow.Beta(AttenuationDecibels);
        for (var n = 0; n < shape.Length; n++)
        {
            var place = (n - 1) / (double)Fine;
            shape[n] = Cutoff * FixedTrigonometry.Sinc(Cutoff * place) * KaiserWindow.At(place / HalfLength, beta);
        }

        return shape;
    }
}
