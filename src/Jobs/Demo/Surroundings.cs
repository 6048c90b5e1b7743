namespace Athwart.Jobs.Demo;

/// <summary>What the walls give back: eight delays that feed each other, heard unrelated in mid and side.</summary>
/// <remarks>
/// A feedback delay network with a Hadamard matrix (lossless before the decay); mid and side take the eight outputs with
/// two orthogonal rows of signs, which makes the late sound diffuse as in <see cref="SoundStage.AddDiffuse"/>.
/// </remarks>
internal sealed class Surroundings
{
    private const int Lines = 8;
    private static readonly double[] Milliseconds = [11.3, 17.9, 23.1, 29.7, 37.3, 43.9, 53.7, 67.1];
    private readonly double[][] _delay = new double[Lines][];
    private readonly int[] _at = new int[Lines];
    private readonly double[] _gain = new double[Lines];
    private readonly double[] _low = new double[Lines];
    private readonly double _keep;

    /// <param name="rate">Frames per second.</param>
    /// <param name="seconds">Time to fall by 60 dB.</param>
    /// <param name="dampingHertz">Above this the walls swallow more.</param>
    /// <param name="size">Factor on the delays; 1 is a lock chamber, 0.4 a bridge cabin wall.</param>
    public Surroundings(int rate, double seconds, double dampingHertz, double size)
    {
        _keep = DemoMath.Exponential(-6.283185307179586 * dampingHertz / rate);
        for (var i = 0; i < Lines; i++)
        {
            var length = Milliseconds[i] * size / 1000;
            _delay[i] = new double[Math.Max(1, (int)(length * rate))];
            _gain[i] = DemoMath.Gain(-60 * length / seconds);
        }
    }

    /// <summary>Adds what comes back from everything sent.</summary>
    public void AddTo(SoundStage stage, double level)
    {
        Span<double> v = stackalloc double[Lines];
        for (var i = 0; i < stage.Length; i++)
        {
            for (var line = 0; line < Lines; line++)
            {
                var heard = _delay[line][_at[line]] * _gain[line];
                _low[line] = heard + (_keep * (_low[line] - heard));
                v[line] = _low[line];
            }

            stage.Mid[i] += level * (v[0] + v[1] + v[2] + v[3] - v[4] - v[5] - v[6] - v[7]);
            stage.Side[i] += level * (v[0] - v[1] + v[2] - v[3] + v[4] - v[5] + v[6] - v[7]);
            Mix(v);
            Store(v, stage.Send[i]);
        }
    }

    private static void Mix(Span<double> v)
    {
        for (var half = 1; half < Lines; half *= 2)
        {
            for (var i = 0; i < Lines; i++)
            {
                if ((i & half) == 0)
                    (v[i], v[i + half]) = (v[i] + v[i + half], v[i] - v[i + half]);
            }
        }
    }

    private void Store(ReadOnlySpan<double> v, double sent)
    {
        const double Lossless = 0.35355339059327373;
        for (var line = 0; line < Lines; line++)
        {
            // A whisper of offset keeps the tail out of denormal numbers, which cost a hundred times more and mean nothing.
            _delay[line][_at[line]] = (v[line] * Lossless) + sent + 1e-20;
            _at[line] = _at[line] + 1 == _delay[line].Length ? 0 : _at[line] + 1;
        }
    }
}
