using Athwart.Jobs.Evidences;

namespace Athwart.Jobs.Explain;

/// <summary>Small made sounds for the pictures of explanations: deterministic, and as simple as what they have to show.</summary>
internal sealed class ExampleSound
{
    public const int Rate = 48_000;
    private readonly float[] _mid, _side;
    private uint _state = 1;

    private ExampleSound(double seconds) => (_mid, _side) = (new float[(int)(seconds * Rate)], new float[(int)(seconds * Rate)]);

    /// <summary>The samples of the mid.</summary>
    public Span<float> Mid => _mid;

    /// <summary>The samples of the side.</summary>
    public Span<float> Side => _side;

    /// <summary>Soft water and a few strokes: a pair in which nothing is wrong.</summary>
    /// <param name="seconds">How long it is.</param>
    /// <param name="level">Amplitude of the water.</param>
    /// <param name="strokes">Amplitude of the strokes; 0 for none.</param>
    public static ExampleSound Place(double seconds, double level = 0.03, double strokes = 0.3)
    {
        var sound = new ExampleSound(seconds);
        sound.AddNoise(sound.Mid, level);
        sound.AddNoise(sound.Side, 0.6 * level);
        for (var at = 0.4; strokes > 0 && at < seconds - 0.2; at += 0.85)
        {
            // Each from another place between left and right.
            var place = Math.Sin(3.1 * at);
            sound.Stroke(sound.Mid, at, strokes);
            sound.Stroke(sound.Side, at, strokes * place * 0.8);
        }

        return sound;
    }

    /// <summary>A sine in one channel.</summary>
    public ExampleSound Tone(Span<float> channel, double hertz, double amplitude, double from = 0, double to = double.PositiveInfinity)
    {
        for (var i = (int)(from * Rate); i < Math.Min(channel.Length, to * Rate); i++)
            channel[i] += (float)(amplitude * Math.Sin(2 * Math.PI * hertz * i / Rate));
        return this;
    }

    /// <summary>A sine that goes evenly from one frequency to another.</summary>
    public ExampleSound Glide(Span<float> channel, double fromHertz, double toHertz, double amplitude, double from, double to)
    {
        for (var i = (int)(from * Rate); i < Math.Min(channel.Length, to * Rate); i++)
        {
            var t = ((double)i / Rate) - from;
            channel[i] += (float)(amplitude * Math.Sin(2 * Math.PI * ((fromHertz * t) + ((toHertz - fromHertz) * t * t / (2 * (to - from))))));
        }

        return this;
    }

    /// <summary>Noise whose power falls with frequency, as water and wind have it.</summary>
    /// <param name="channel">Where to.</param>
    /// <param name="amplitude">About its root mean square.</param>
    /// <param name="corner">Where it begins to fall, in hertz.</param>
    /// <param name="from">Where it begins, in seconds.</param>
    /// <param name="to">Where it ends; it swells and fades between.</param>
    public ExampleSound AddNoise(Span<float> channel, double amplitude, double corner = 1500, double from = 0, double to = double.PositiveInfinity)
    {
        var (pole, held) = (Math.Exp(-2 * Math.PI * corner / Rate), 0.0);
        var last = (int)Math.Min(channel.Length, to * Rate);
        var first = (int)(from * Rate);
        for (var i = first; i < last; i++)
        {
            held = (pole * held) + (Math.Sqrt(1 - (pole * pole)) * Chance());
            var swell = double.IsInfinity(to) ? 1 : Math.Sin(Math.PI * (i - first) / (last - first));
            channel[i] += (float)(amplitude * swell * held);
        }

        return this;
    }

    /// <summary>A struck, dying sound.</summary>
    public ExampleSound Stroke(Span<float> channel, double at, double amplitude, double hertz = 700, double dies = 0.06)
    {
        for (var i = (int)(at * Rate); i < channel.Length; i++)
        {
            var t = ((double)i / Rate) - at;
            if (t > 12 * dies)
                break;
            channel[i] += (float)(amplitude * (1 - Math.Exp(-t * 4000)) * Math.Exp(-t / dies) * (Math.Sin(2 * Math.PI * hertz * t) + (0.5 * Math.Sin(2 * Math.PI * 2.7 * hertz * t))) / 1.5);
        }

        return this;
    }

    /// <summary>Syllables with a pitch in both channels: a voice in the middle.</summary>
    public ExampleSound Speak(double from, double to, double amplitude)
    {
        for (var at = from; at < to - 0.1; at += 0.23)
        {
            var length = Math.Min(0.19, to - at);
            for (var i = 0; i < length * Rate; i++)
            {
                var t = (double)i / Rate;
                var voice = Enumerable.Range(1, 12).Sum(k => Math.Sin(2 * Math.PI * k * 118 * t) / k) * Math.Sin(Math.PI * t / length);
                _mid[(int)(at * Rate) + i] += (float)(amplitude * voice);
                _side[(int)(at * Rate) + i] += (float)(0.06 * amplitude * voice);
            }
        }

        return this;
    }

    /// <summary>Changes every sample of a stretch of one channel.</summary>
    public ExampleSound Change(Span<float> channel, Func<float, float> change, double from = 0, double to = double.PositiveInfinity)
    {
        for (var i = (int)(from * Rate); i < Math.Min(channel.Length, to * Rate); i++)
            channel[i] = change(channel[i]);
        return this;
    }

    /// <summary>The pair as it can be read.</summary>
    public IPairSound Held() => new HeldSound(_mid, _side, Rate);

    /// <summary>Sum of four even chances: near enough to a normal one, standard deviation 1.</summary>
    private double Chance()
    {
        var sum = 0.0;
        for (var i = 0; i < 4; i++)
        {
            _state = (_state * 1664525) + 1013904223;
            sum += (_state / 4294967296.0) - 0.5;
        }

        return sum * Math.Sqrt(3);
    }
}
