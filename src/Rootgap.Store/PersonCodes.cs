using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Rootgap.Store;

/// <summary>People's own codes and badges, by which they show to be at a device. Of codes only slow hashes are kept, and who guesses waits ever longer.</summary>
public sealed class PersonCodes(FactStore store, TimeProvider clock)
{
    /// <summary>Letters and figures that nobody takes for each other.</summary>
    public const string Alphabet = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

    private const string BadgeBegins = "rootgap-badge:";
    private const int BadgeLength = 20;
    private const int FreeWrong = 5;
    private const int Rounds = 200_000;

    /// <summary>Gives a person their own code.</summary>
    public Task SetAsync(string person, string code) => store.ChangeSecretAsync("code:" + person, _ =>
    {
        var salt = RandomNumberGenerator.GetBytes(16);
        return JsonSerializer.Serialize(new PersonCode(Convert.ToBase64String(salt), Slow(code, salt), 0, DateTimeOffset.MinValue));
    });

    /// <summary>Makes a person's badge: what its QR code says. The one before is void.</summary>
    public async Task<string> NewBadgeAsync(string person)
    {
        var badge = $"{BadgeBegins}{person}:{RandomNumberGenerator.GetString(Alphabet, BadgeLength)}";
        // A hundred bits are not guessed: no slow hash is needed.
        await store.ChangeSecretAsync("badge:" + person, _ => HashOf(badge));
        return badge;
    }

    /// <summary>What is wrong with a code that somebody wants; null where nothing is.</summary>
    public static string? WhyNotCode(string code) => code.Length is >= 4 and <= 12 && code.All(char.IsAsciiDigit) && code.Distinct().Count() > 1 && !"0123456789 9876543210".Contains(code, StringComparison.Ordinal)
        ? null : "A code has 4 to 12 figures, not all the same and not in a row.";

    /// <summary>Whether a person's code, or what their badge says, is right; else why not.</summary>
    public async Task<string?> WhyNotProvenAsync(string person, string code)
    {
        if (code.StartsWith(BadgeBegins, StringComparison.Ordinal))
            return await WhyNotBadgeAsync(person, code);
        string? why = null;
        await store.ChangeSecretAsync("code:" + person, before =>
        {
            if (before is null)
            {
                why = "No code was set for this person yet.";
                return null;
            }

            var kept = JsonSerializer.Deserialize<PersonCode>(before)!;
            if (clock.GetUtcNow() < kept.Until)
            {
                why = string.Create(CultureInfo.InvariantCulture, $"Too many wrong codes. Wait till {kept.Until:HH:mm}Z.");
                return before;
            }

            if (CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(Slow(code, Convert.FromBase64String(kept.Salt))), Encoding.ASCII.GetBytes(kept.Hash)))
                return JsonSerializer.Serialize(kept with { Wrong = 0 });
            why = "That is not the code.";
            var wrong = kept.Wrong + 1;
            return JsonSerializer.Serialize(kept with { Wrong = wrong, Until = wrong < FreeWrong ? DateTimeOffset.MinValue : clock.GetUtcNow() + TimeSpan.FromMinutes(Math.Pow(2, Math.Min(10, wrong - FreeWrong))) });
        });
        return why;
    }

    /// <summary>The hash by which a code or a badge that is not guessed is kept.</summary>
    public static string HashOf(string code) => Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes("rootgap enrol " + code)));

    private async Task<string?> WhyNotBadgeAsync(string person, string badge)
    {
        var kept = await store.SecretAsync("badge:" + person);
        return kept is not null && CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(kept), Encoding.ASCII.GetBytes(HashOf(badge))) ? null
            : badge.StartsWith($"{BadgeBegins}{person}:", StringComparison.Ordinal) ? "This badge is void: a new one was made." : "That is somebody else's badge.";
    }

    private static string Slow(string code, byte[] salt) => Convert.ToBase64String(Rfc2898DeriveBytes.Pbkdf2(code, salt, Rounds, HashAlgorithmName.SHA256, 32));

    private sealed record PersonCode(string Salt, string Hash, int Wrong, DateTimeOffset Until);
}
