using Athwart.Signals.Fourier;

namespace Athwart.Metering.LineUp;

/// <summary>The stretch of a sound that arrives before any reflection: a short rise before the onset, flat, and a fall over the last third.</summary>
internal sealed class DirectWindow
{
    private const double LeadMilliseconds = 0.4;
    private const double FlatShare = 0.65;
    private const int ZeroPadding = 4;

    public DirectWindow(int rate, double milliseconds)
    {
        Rate = rate;
        Lead = (int)Math.Ceiling(LeadMilliseconds * rate / 1000);
        var after = (int)Math.Round(milliseconds * rate / 1000);
        Taper = new float[Lead + after];
        for (var i = 0; i < Taper.Length; i++)
            Taper[i] = (float)Weight(i, after);
        Transform = new((int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(ZeroPadding * Taper.Length)));
    }

    /// <summary>Frames a second.</summary>
    public int Rate { get; }

    /// <summary>Frames before the onset.</summary>
    public int Lead { get; }

    /// <summary>Weight of each frame, 0 to 1.</summary>
    public float[] Taper { get; }

    /// <summary>Frames in all.</summary>
    public int Length => Taper.Length;

    /// <summary>The transform, with room for finer frequencies.</summary>
    public FourierTransform Transform { get; }

    /// <summary>Bins up to half the rate.</summary>
    public int Bins => (Transform.Length / 2) + 1;

    /// <summary>How many neighbouring bins tell the same.</summary>
    public double Oversampling => (double)Transform.Length / Length;

    /// <summary>The bin nearest to a frequency.</summary>
    public int Bin(double hertz) => Math.Clamp((int)Math.Round(hertz * Transform.Length / Rate), 0, Bins - 1);

    /// <summary>The lowest frequency of which this window holds a period and a half.</summary>
    public double LowestHertz => 1500.0 / (1000.0 * (Length - Lead) / Rate);

    private double Weight(int i, int after)
    {
        if (i < Lead)
            return 0.5 - (0.5 * Math.Cos(Math.PI * (i + 0.5) / Lead));
        var fall = ((double)(i - Lead) / after) - FlatShare;
        return fall <= 0 ? 1 : 0.5 + (0.5 * Math.Cos(Math.PI * fall / (1 - FlatShare)));
    }
}
